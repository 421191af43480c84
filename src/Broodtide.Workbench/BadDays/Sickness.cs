using System.Collections.Immutable;
using Broodtide.Domain;
using Broodtide.Domain.Animals;
using Broodtide.Domain.Broods;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Larvae;
using Broodtide.Domain.Vessels;
using Broodtide.Units;
using Broodtide.Workbench.Planning;
using NodaTime;

namespace Broodtide.Workbench.BadDays;

/// <summary>How well something is known that a sign is reported for.</summary>
public enum SignFooting
{
    /// <summary>Published; at least its abstract was read.</summary>
    Read,

    /// <summary>Cited in what was read.</summary>
    Secondary,

    /// <summary>Keepers' practice, without a source.</summary>
    Practice,
}

/// <summary>A sign that animals or water show. It never names a disease for sure.</summary>
/// <param name="Code">The sign, such as <c>milky-tail</c>.</param>
/// <param name="MayBe">What it is reported for, as the code of a sentence.</param>
/// <param name="Footing">How well that is known.</param>
/// <param name="Source">Who reports it.</param>
/// <param name="IsWaterFirst">Whether the water is the likelier cause and is looked at first.</param>
public sealed record SicknessSign(
    string Code,
    string MayBe,
    SignFooting Footing,
    string Source,
    bool IsWaterFirst = false
);

/// <summary>A vessel that water or animals of another came into or went out of.</summary>
/// <param name="Vessel">The vessel.</param>
/// <param name="Last">When last.</param>
/// <param name="Entry">The entry that tells it; none where an animal went from one to the other.</param>
public sealed record SharedWater(VesselId Vessel, Instant Last, EntryId? Entry);

/// <summary>A suspected disease: what to do first, the signs with their sources, and who shared the water.</summary>
/// <param name="Now">The instant it was made for.</param>
/// <param name="Vessel">The vessel; none if the whole house is asked about.</param>
/// <param name="First">What to do, first things first.</param>
/// <param name="Cautions">What to mind.</param>
/// <param name="Signs">What is seen, and what it is reported for.</param>
/// <param name="Shared">Vessels that shared its water or animals within a month, the newest first.</param>
/// <param name="Assumed">What is supposed.</param>
public sealed record SickDay(
    Instant Now,
    VesselId? Vessel,
    ImmutableArray<Remark> First,
    ImmutableArray<CautionCode> Cautions,
    ImmutableArray<SicknessSign> Signs,
    ImmutableArray<SharedWater> Shared,
    ImmutableArray<Remark> Assumed
);

/// <summary>What to do when animals look sick.</summary>
public static class Sickness
{
    private static readonly Duration Reach = Duration.FromDays(30);

    /// <summary>The signs that keepers are asked for.</summary>
    public static ImmutableArray<SicknessSign> Signs { get; } =
    [
        new(
            "all-at-once",
            "sick-may-poison-or-air",
            SignFooting.Practice,
            "common practice, no source",
            IsWaterFirst: true
        ),
        new(
            "yellow-film-then-collapse",
            "sick-may-bloom",
            SignFooting.Practice,
            "Japanese blog 2023, keeper's report",
            IsWaterFirst: true
        ),
        new(
            "milky-tail",
            "sick-may-white-tail",
            SignFooting.Read,
            "Sahul Hameed and Bonami 2012, Indian J. Virol. 23:134-140 (abstract)"
        ),
        new(
            "white-spots",
            "sick-may-white-spot",
            SignFooting.Read,
            "Pramod Kiran et al. 2002, J. Fish Dis. 25:201-207 (abstract)"
        ),
        new(
            "bluish-spiral-not-eating",
            "sick-may-mid-cycle",
            SignFooting.Secondary,
            "web summaries of hatchery practice (2013-2014), after FAO"
        ),
        new(
            "glow-at-night",
            "sick-may-luminous",
            SignFooting.Secondary,
            "web summaries of hatchery practice (2013-2014), after FAO"
        ),
        new(
            "fluff-on-eggs",
            "sick-may-mould",
            SignFooting.Read,
            "New 2002, FAO Fish. Tech. Paper 428",
            IsWaterFirst: true
        ),
        new(
            "tufts-on-body",
            "sick-may-ciliates",
            SignFooting.Read,
            "Aquarium hitchhikers, Biol. Invasions, doi 10.1007/s10530-015-1018-9 (abstract)"
        ),
        new(
            "worms-at-head",
            "sick-may-scutariellids",
            SignFooting.Read,
            "Aquarium hitchhikers, Biol. Invasions, doi 10.1007/s10530-015-1018-9 (abstract)"
        ),
    ];

    /// <summary>What to do.</summary>
    /// <param name="outlook">What is known.</param>
    /// <param name="vessel">The vessel; none if the whole house is asked about.</param>
    /// <param name="seen">Codes of signs that were seen; those that are not known are passed over.</param>
    public static SickDay Of(
        Outlook outlook,
        VesselId? vessel = null,
        IReadOnlyCollection<string>? seen = null
    )
    {
        ImmutableArray<SicknessSign> signs =
        [
            .. Signs.Where(sign => seen is not { Count: > 0 } || seen.Contains(sign.Code)),
        ];
        var isWater = seen is { Count: > 0 } && signs.Any(sign => sign.IsWaterFirst);
        var shared = vessel is { } id ? SharedWith(outlook.House, id, outlook.Now) : [];
        return new(
            outlook.Now,
            vessel,
            [
                .. isWater ? [new Remark("badday-sick-water-now")] : Array.Empty<Remark>(),
                new Remark("badday-sick-stop"),
                new Remark("badday-sick-tools"),
                .. isWater ? Array.Empty<Remark>() : [new Remark("badday-sick-water")],
                new Remark("badday-sick-samples"),
                new Remark("badday-sick-ask"),
                new Remark("badday-sick-nothing-in"),
                .. shared.IsEmpty
                    ? Array.Empty<Remark>()
                    : [new Remark("badday-sick-shared", new Argument("number", (double)shared.Length))],
                new Remark("badday-sick-decide"),
                new Remark("badday-sick-clean"),
            ],
            [CautionCode.Disease, CautionCode.Copper, CautionCode.NoRelease, CautionCode.BleachAndAcids],
            signs,
            shared,
            [new Remark("badday-sick-no-diagnosis"), new Remark("badday-sick-nothing-for-these")]
        );
    }

    /// <summary>Vessels that shared water or animals with one within a month, the newest first.</summary>
    /// <param name="house">What is known.</param>
    /// <param name="vessel">The vessel.</param>
    /// <param name="now">The present.</param>
    public static ImmutableArray<SharedWater> SharedWith(House house, VesselId vessel, Instant now)
    {
        var found = new Dictionary<VesselId, SharedWater>();
        foreach (var told in house.Account.About(Subject.Of(vessel)))
        {
            var when = told.Happened.Middle;
            if (when > now || now - when > Reach)
            {
                continue;
            }

            foreach (var other in Others(told.Fact).Where(other => other != vessel))
            {
                Note(other, when, told.Id);
            }
        }

        foreach (var (from, to, when, entry) in Crossings(house))
        {
            if (when <= now && now - when <= Reach)
            {
                foreach (var one in from.Where(one => one != to && (one == vessel || to == vessel)))
                {
                    Note(one == vessel ? to : one, when, entry);
                }
            }
        }

        foreach (var animal in house.Animals)
        {
            foreach (var (before, after) in animal.Places.Zip(animal.Places.Skip(1)))
            {
                var when = after.From.Middle;
                var other =
                    before.Vessel == vessel ? after.Vessel
                    : after.Vessel == vessel ? before.Vessel
                    : null;
                if (other is { } visited && visited != vessel && when <= now && now - when <= Reach)
                {
                    Note(visited, when, null);
                }
            }
        }

        return [.. found.Values.OrderByDescending(one => one.Last)];

        void Note(VesselId other, Instant when, EntryId? entry)
        {
            if (!found.TryGetValue(other, out var known) || known.Last < when)
            {
                found[other] = new(other, when, entry);
            }
        }
    }

    private static IEnumerable<VesselId> Others(Fact fact) =>
        fact switch
        {
            VesselFilled filled => [.. Some(filled.From, filled.Vessel)],
            WaterMoved moved => [.. Some(moved.From, moved.To)],
            VesselFed fed => [.. Some(fed.From, fed.Vessel)],
            CohortsMoved moved => [.. Some(moved.From, moved.To)],
            CohortSplit split => [.. Some(split.From, split.To)],
            JuvenilesReturned back => [.. Some(back.From, back.To)],
            CollectionMade made => [.. Some(made.From, made.Into)],
            CrossingMade crossing => [.. Some(crossing.Source, crossing.To)],
            _ => [],
        };

    // Larvae come with their mother's water: from where they hatched, where they were gathered, and where she lives.
    private static IEnumerable<(
        IEnumerable<VesselId> From,
        VesselId To,
        Instant When,
        EntryId Entry
    )> Crossings(House house) =>
        house.Broods.SelectMany(brood =>
            brood.Crossings.Select(crossing =>
            {
                var when = crossing.When.Middle;
                return (
                    Some(brood.HatchingBox, brood.DroppedIn, Mother(house, brood)?.PlaceAt(when))
                        .Concat(
                            brood
                                .Gatherings.Where(one =>
                                    crossing.Made.Collections?.Contains(one.Made.Collection) ?? true
                                )
                                .SelectMany(one => Some(one.Made.From, one.Made.Into))
                        )
                        .Distinct(),
                    crossing.Made.To,
                    when,
                    crossing.Entry
                );
            })
        );

    private static Animal? Mother(House house, Brood brood) =>
        house.Animals.FirstOrDefault(animal => animal.Id == brood.Animal);

    private static IEnumerable<VesselId> Some(params VesselId?[] vessels) => vessels.OfType<VesselId>();
}
