using Broodtide.Domain.Journal;
using Broodtide.Units;
using NodaTime;

namespace Broodtide.Domain.Larvae;

/// <summary>The part of a cohort that lives in one vessel.</summary>
/// <param name="Vessel">The vessel.</param>
/// <param name="Since">Since when.</param>
/// <param name="Until">Until when; none while it lives there.</param>
/// <param name="Entered">How many came in, if it was said.</param>
public sealed record Group(VesselId Vessel, Happened Since, Happened? Until, int? Entered);

/// <summary>Larvae of one crossing: of which brood, in which vessels. A total view of the journal.</summary>
public sealed class Cohort
{
    private readonly List<Group> _groups = [];
    private readonly List<Remark> _conflicts = [];

    private Cohort(CohortId id) => Id = id;

    /// <summary>Identity; survives moving, merging and splitting.</summary>
    public CohortId Id { get; }

    /// <summary>The brood they hatched from; none if the crossing was never written down.</summary>
    public BroodId? Brood { get; private set; }

    /// <summary>When they crossed.</summary>
    public Happened? Crossed { get; private set; }

    /// <summary>How many crossed, if it was said.</summary>
    public int? Number { get; private set; }

    /// <summary>The cohort it is told with from then on; none while it stands alone.</summary>
    public CohortId? MergedInto { get; private set; }

    /// <summary>Its parts, in the order of telling.</summary>
    public IReadOnlyList<Group> Groups => _groups;

    /// <summary>What does not agree in its history.</summary>
    public IReadOnlyList<Remark> Conflicts => _conflicts;

    /// <summary>The vessels it lived in at an instant.</summary>
    public IEnumerable<VesselId> VesselsAt(Instant instant) =>
        _groups
            .Where(group =>
                group.Since.Middle <= instant && (group.Until is not { } until || until.Middle > instant)
            )
            .Select(group => group.Vessel)
            .Distinct();

    /// <summary>The view of one cohort in an account.</summary>
    public static Cohort In(Account account, CohortId id) =>
        In(account, id, vessel => MovesOfAll(account, vessel));

    /// <summary>Moves that name no cohort: they move all that live in a vessel.</summary>
    internal static IReadOnlyList<Occurrence> MovesOfAll(Account account, VesselId vessel) =>
        [
            .. account
                .About(Subject.Of(vessel))
                .Where(occurrence =>
                    occurrence.Fact is CohortsMoved { Cohorts: null } moved && moved.From == vessel
                ),
        ];

    /// <param name="account">What is known.</param>
    /// <param name="id">The cohort.</param>
    /// <param name="movesOfAll">See <see cref="MovesOfAll"/>; many cohorts of one vessel ask for the same.</param>
    internal static Cohort In(
        Account account,
        CohortId id,
        Func<VesselId, IReadOnlyList<Occurrence>> movesOfAll
    )
    {
        var cohort = new Cohort(id);
        foreach (var occurrence in account.About(Subject.Of(id)))
        {
            cohort.Take(occurrence);
        }

        foreach (var vessel in cohort._groups.Select(group => group.Vessel).Distinct().ToList())
        {
            foreach (var occurrence in movesOfAll(vessel))
            {
                var moved = (CohortsMoved)occurrence.Fact;
                cohort.Move(occurrence, moved.From, moved.To, moved.Number is null, moved.Number);
            }
        }

        return cohort;
    }

    private void Take(Occurrence occurrence)
    {
        switch (occurrence.Fact)
        {
            case CrossingMade crossing:
                Brood ??= crossing.Brood;
                Crossed ??= occurrence.Happened;
                Number = crossing.Number is { } more
                    ? (int)Math.Min(int.MaxValue, (Number ?? 0) + (long)more)
                    : Number;
                _groups.Add(new(crossing.To, occurrence.Happened, null, crossing.Number));
                break;
            case CohortsMoved { Cohorts: not null } moved:
                Move(occurrence, moved.From, moved.To, moved.Number is null, moved.Number);
                break;
            case CohortSplit split:
                Move(occurrence, split.From, split.To, false, split.Number);
                break;
            case CohortsMerged merged:
                if (merged.Cohorts.Count < 2 || merged.Cohorts.Distinct().Count() < merged.Cohorts.Count)
                {
                    _conflicts.Add(
                        new Remark("merged-into-itself", new("cohort", Id), new("entry", occurrence.Id))
                    );
                }

                if (merged.Into != Id)
                {
                    MergedInto = merged.Into;
                }

                break;
            default:
                break;
        }
    }

    private void Move(Occurrence occurrence, VesselId from, VesselId to, bool all, int? number)
    {
        var index = _groups.FindLastIndex(group => group.Vessel == from && group.Until is null);
        if (index < 0)
        {
            _conflicts.Add(
                new Remark("moved-from-where-it-was-not", new("cohort", Id), new("entry", occurrence.Id))
            );
        }
        else if (all)
        {
            _groups[index] = _groups[index] with { Until = occurrence.Happened };
        }

        _groups.Add(new(to, occurrence.Happened, null, number));
    }
}
