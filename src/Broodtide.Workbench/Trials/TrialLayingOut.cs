using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Domain.Vessels;
using Broodtide.Units;
using Broodtide.Workbench.Recording;
using NodaTime;

namespace Broodtide.Workbench.Trials;

/// <summary>What a trial is called and what its treatments are.</summary>
/// <param name="Name">Name of the trial; its new vessels are called by it.</param>
/// <param name="Varied">What is varied.</param>
/// <param name="Treatments">The treatments, the usual one first.</param>
/// <param name="Compared">What will be compared in the end.</param>
/// <param name="Run">The run the larvae come from.</param>
/// <param name="Capacity">What each new vessel holds.</param>
/// <param name="Existing">Vessels that stand already, used first, in the order of the layout.</param>
public sealed record TrialNames(
    string Name,
    string Varied,
    IReadOnlyList<TrialTreatment> Treatments,
    string? Compared,
    RunId? Run,
    Volume? Capacity,
    IReadOnlyList<VesselId> Existing
);

/// <summary>One vessel as it is laid out, for its label.</summary>
/// <param name="Vessel">The vessel.</param>
/// <param name="Name">What it is called.</param>
/// <param name="Treatment">What it gets.</param>
/// <param name="Block">Its block.</param>
/// <param name="IsNew">Whether it is set up with the trial.</param>
public sealed record LaidVessel(
    VesselId Vessel,
    string Name,
    TrialTreatment Treatment,
    int Block,
    bool IsNew
);

/// <summary>A trial ready to be written: its vessels, and the entries in one piece.</summary>
/// <param name="Vessels">The vessels in the order of the layout.</param>
/// <param name="Drafts">The entries: the new vessels, then the trial.</param>
public sealed record LaidTrial(IReadOnlyList<LaidVessel> Vessels, IReadOnlyList<Draft> Drafts);

/// <summary>Makes the vessels and the plan of a trial in one step.</summary>
public static class TrialLayingOut
{
    /// <summary>The entries that lay a trial out.</summary>
    /// <param name="house">What is known: names that are taken.</param>
    /// <param name="proposal">How it is laid out.</param>
    /// <param name="names">What it is called.</param>
    /// <param name="keeper">Who writes.</param>
    /// <param name="newId">Makes identities.</param>
    /// <param name="now">The present.</param>
    /// <exception cref="ArgumentException">The number of treatments is not that of the proposal.</exception>
    public static LaidTrial Of(
        House house,
        TrialProposal proposal,
        TrialNames names,
        Keeper keeper,
        Func<Guid> newId,
        Instant now
    )
    {
        if (names.Treatments.Count != proposal.Wishes.Treatments)
        {
            throw new ArgumentException("Every treatment needs a name.", nameof(names));
        }

        var taken = house
            .Vessels.Select(vessel => vessel.Name)
            .OfType<string>()
            .ToHashSet(StringComparer.OrdinalIgnoreCase);
        var drafts = new List<Draft>();
        var laid = new List<LaidVessel>();
        foreach (var (place, dealt) in proposal.Layout.Index())
        {
            if (place < names.Existing.Count)
            {
                var known = names.Existing[place];
                laid.Add(
                    new(
                        known,
                        house.Vessel(known).Name ?? $"{known.Value}",
                        names.Treatments[dealt.Treatment],
                        dealt.Block,
                        IsNew: false
                    )
                );
                continue;
            }

            // A name that says nothing of the treatment: whoever counts should not see it.
            var number = place + 1;
            while (!taken.Add($"{names.Name} {number}"))
            {
                number += proposal.Layout.Count;
            }

            var vessel = new VesselId(newId());
            laid.Add(
                new(
                    vessel,
                    $"{names.Name} {number}",
                    names.Treatments[dealt.Treatment],
                    dealt.Block,
                    IsNew: true
                )
            );
            drafts.Add(
                keeper.Write(
                    new VesselSetUp(
                        vessel,
                        $"{names.Name} {number}",
                        VesselRole.LarvalVessel,
                        names.Capacity is { } capacity ? TypedNumber.Of(capacity.Litres, "L") : null
                    ),
                    Happened.At(now)
                )
            );
        }

        drafts.Add(
            keeper.Write(
                new TrialLaidOut(
                    names.Name,
                    names.Varied,
                    names.Treatments,
                    [
                        .. proposal.Layout.Select(
                            (dealt, place) =>
                                new TrialVessel(laid[place].Vessel, dealt.Treatment, dealt.Block)
                        ),
                    ],
                    proposal.Wishes.Seed,
                    names.Run,
                    names.Compared
                ),
                Happened.At(now)
            )
        );
        return new(laid, drafts);
    }
}
