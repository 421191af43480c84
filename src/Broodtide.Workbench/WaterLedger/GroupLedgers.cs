namespace Broodtide.Workbench.WaterLedger;

/// <summary>
/// The ledgers of one group as an outlook needs them: of the water that stands, which what was kept may answer at once, and of all
/// fills there ever were.
/// </summary>
internal sealed class GroupLedgers
{
    private readonly LedgersKept _kept;
    private readonly Lazy<LedgerScene> _scene;

    /// <summary>The ledgers of a group; nothing is told yet.</summary>
    public GroupLedgers(LedgersKept kept, LedgerGroup group, Func<LedgerScene> scene)
    {
        _kept = kept;
        _scene = new(scene);
        Group = group;
        Whole = new(() => _kept.InPieces(_scene.Value, group.Occurrences));
        Standing = new(StandingInPieces);
    }

    /// <summary>The group.</summary>
    public LedgerGroup Group { get; }

    /// <summary>The ledgers of all its fills.</summary>
    public Piecewise<IReadOnlyList<VesselLedger>> Whole { get; }

    /// <summary>The ledgers of its fills that were not emptied, the same as of all of them.</summary>
    public Piecewise<IReadOnlyList<VesselLedger>> Standing { get; }

    private IEnumerable<IReadOnlyList<VesselLedger>?> StandingInPieces()
    {
        IReadOnlyList<VesselLedger>? told = null;
        if (!Whole.IsDone && _kept.Resumed(_scene.Value, Group.Occurrences) is { } telling)
        {
            foreach (var piece in _kept.InPieces(telling, _scene.Value, Group.Occurrences))
            {
                told = piece;
                yield return null;
            }
        }
        else
        {
            while (!Whole.IsDone)
            {
                Whole.Advance();
                yield return null;
            }

            told = Whole.Value;
        }

        yield return [.. told!.Where(ledger => !ledger.Ended)];
    }
}
