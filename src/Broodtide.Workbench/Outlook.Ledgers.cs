using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Workbench.Mixing;
using Broodtide.Workbench.Population;
using Broodtide.Workbench.WaterLedger;

namespace Broodtide.Workbench;

public sealed partial class Outlook
{
    private readonly Lazy<IReadOnlyList<GroupLedgers>> _ledgerGroups;
    private readonly Lazy<IReadOnlyList<VesselLedger>> _ledgers;
    private readonly Lazy<IReadOnlyList<VesselLedger>> _standing;
    private readonly Lazy<Dictionary<VesselId, VesselLedger>> _standingOf;
    private readonly Lazy<LedgerWater> _waterThen;

    /// <summary>The ledgers of all fills, by vessel, oldest fill first.</summary>
    public IReadOnlyList<VesselLedger> Ledgers => _ledgers.Value;

    /// <summary>The ledgers of all fills of a vessel, oldest fill first; none where it never held any.</summary>
    public IReadOnlyList<VesselLedger> LedgersOf(VesselId vessel) => WaterThen.LedgersOf(vessel);

    /// <summary>What counts say by themselves.</summary>
    internal CountsMeant CountsMeant => _kept.Counts;

    /// <summary>How much water stood where at any instant of the past.</summary>
    internal LedgerWater WaterThen => _waterThen.Value;

    /// <summary>
    /// The ledgers of the fills that were not emptied, the same as among <see cref="Ledgers"/>. What was kept from an earlier
    /// opening spares most of the work for them.
    /// </summary>
    public IReadOnlyList<VesselLedger> StandingLedgers => _standing.Value;

    /// <summary>Whether <see cref="Ledgers"/> are worked out already, so that asking for them costs nothing.</summary>
    public bool KnowsLedgers =>
        _ledgers.IsValueCreated
        || (_ledgerGroups.IsValueCreated && _ledgerGroups.Value.All(group => group.Whole.IsDone));

    /// <summary>
    /// How many occurrences the ledgers took in so far, over all outlooks that this one went on from: what an entry costs.
    /// </summary>
    public int LedgerEntriesTaken => _kept.Ledgers.Taken;

    /// <summary>The ledger of the water that stands in a vessel now; none when it is empty or never held any.</summary>
    public VesselLedger? LedgerOf(VesselId vessel) => _standingOf.Value.GetValueOrDefault(vessel);

    /// <summary>
    /// What was worked out and spares the most when the same journal is opened again: to be kept beside it and offered to
    /// <see cref="Of"/> then. It may be thrown away at any time. None where nothing new came of it since it was taken last, or too
    /// little.
    /// </summary>
    public Checkpoint? TakeCheckpoint() =>
        _ledgerGroups.IsValueCreated && MayKeep
            ? _kept.Ledgers.TakeCheckpoint([.. _ledgerGroups.Value.Select(ledgers => ledgers.Group)])
            : null;

    // What numbers mean rests on the salt mix.
    private bool MayKeep => _wishes.Product == SaltProduct.Unmeasured;

    /// <summary>The pieces of the ledgers.</summary>
    internal IEnumerable<Action> LedgerSteps() => LedgerSteps(group => group.Whole, () => _ = Ledgers);

    /// <summary>
    /// The pieces in which the water that stands is worked out, the first of <see cref="Steps"/>: what a page asks of before
    /// all else. Each may be run alone, with a pause before the next.
    /// </summary>
    public IEnumerable<Action> StandingSteps()
    {
        // Each view is made by being passed; ten years have hundreds.
        foreach (var _ in House.Vessels)
        {
            yield return static () => { };
        }

        foreach (var _ in _kept.Ledgers.PrepareGroups(House))
        {
            yield return static () => { };
        }

        foreach (var step in LedgerSteps(group => group.Standing, () => _ = StandingLedgers))
        {
            yield return step;
        }
    }

    private IEnumerable<Action> LedgerSteps(
        Func<GroupLedgers, Piecewise<IReadOnlyList<VesselLedger>>> part,
        Action all
    )
    {
        yield return () => _ = _ledgerGroups.Value;
        foreach (var group in _ledgerGroups.Value)
        {
            foreach (var step in InPieces(part(group)))
            {
                yield return step;
            }
        }

        yield return all;
    }

    private List<VesselLedger> InOrder(Func<GroupLedgers, Piecewise<IReadOnlyList<VesselLedger>>> part) =>
        [
            .. _ledgerGroups
                .Value.SelectMany(group => part(group).Value!)
                .OrderBy(ledger => ledger.Vessel.Value)
                .ThenBy(ledger => ledger.FillNumber),
        ];

    private List<GroupLedgers> LedgerGroupsOf() =>
        [
            .. _kept
                .Ledgers.GroupsOf(House)
                .Select(group => new GroupLedgers(
                    _kept.Ledgers,
                    group,
                    () =>
                        new LedgerScene(House, group.Fills, Meaning, Profiles.BandOf, Now).Hearing(
                            _means.Value
                        )
                )),
        ];
}
