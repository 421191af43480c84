using Broodtide.Domain;
using Broodtide.Workbench.Population;
using NodaTime;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Workbench.TideLine;

/// <summary>How many of a brood's larvae are alive, as its tide line shows them: from an estimate that is at hand.</summary>
internal sealed class TideAliveOf
{
    // The bed ends here; what comes after is one stage alone.
    private const double NearlyAllSettled = 0.95;

    // The shares at which the estimate tells a day.
    private static readonly double[] Shares = [0.1, 0.5, 0.9];

    private readonly PopulationEstimate _estimate;
    private readonly AliveOfBrood _brood;

    private TideAliveOf(PopulationEstimate estimate, AliveOfBrood brood) =>
        (_estimate, _brood) = (estimate, brood);

    /// <summary>What an estimate says of a brood; none without one.</summary>
    internal static TideAliveOf? Of(PopulationEstimate? estimate, BroodId brood) =>
        estimate?.Broods.FirstOrDefault(told => told.Brood == brood) is { } found
            ? new(estimate, found)
            : null;

    internal bool IsRough => _estimate.IsRough;

    internal IReadOnlyList<TideRow> Rows => RowsOf(_brood.Track);

    internal TideVessel Put(TideVessel vessel) =>
        _brood.Vessels.FirstOrDefault(there => there.Vessel.Value == vessel.Id) is { } found
            ? vessel with
            {
                Alive = RowsOf(found.Track),
                AliveIsRough = IsRough,
                OfOtherRuns = found.OthersNow is { Alive: { High: > 0 } others } ? others : null,
            }
            : vessel;

    /// <summary>The share in each stage while any live, until nearly all have settled.</summary>
    internal IReadOnlyList<TideStageRow> Stages(IReadOnlyList<TideStage> names)
    {
        var rows = new List<TideStageRow>();
        foreach (var point in _brood.Track.Where(point => point.StageShares.Sum() > 0))
        {
            rows.Add(new(point.At, [.. names.Select((_, place) => ShareAt(point, place))]));
            if (names.Count > 0 && SettledShare(names, rows[^1]) >= NearlyAllSettled)
            {
                break;
            }
        }

        return rows;
    }

    internal TideSettlement Settlement =>
        new(
            Days(_estimate.Settlement.First),
            Days(_estimate.Settlement.Half),
            Days(_estimate.Settlement.NineTenths)
        );

    /// <summary>
    /// Settled ones to expect, growing towards the number on the day by which nine in ten have settled; none where
    /// other broods share the water, whose settled ones are not told apart.
    /// </summary>
    internal IReadOnlyList<TideRow> Juveniles
    {
        get
        {
            if (_estimate.Broods.Count != 1 || _estimate.JuvenilesOn <= _estimate.Now)
            {
                return [];
            }

            var rows = new List<TideRow>();
            var window = _estimate.Settlement;
            InstantRange[] days = [window.Tenth, window.Half, window.NineTenths];
            rows.Add(new(window.First.Middle, Interval.Exactly(0)));
            foreach (var (day, share) in days.Zip(Shares))
            {
                // Days that fall together make a step.
                var at = Instant.Max(day.Middle, rows[^1].At);
                rows.Add(new(at, _estimate.Juveniles.Scaled(share / Shares[^1])));
            }

            return rows;
        }
    }

    private static double ShareAt(AlivePoint point, int place) =>
        place < point.StageShares.Count ? point.StageShares[place] : 0;

    private static double SettledShare(IReadOnlyList<TideStage> names, TideStageRow row) =>
        row.Shares.Where((_, place) => names[place].BottomLiving).Sum();

    private static IReadOnlyList<TideRow> RowsOf(IEnumerable<AlivePoint> track) =>
        [.. track.Select(point => new TideRow(point.At, point.Alive))];

    private static TideDays Days(InstantRange range) => new(range.Early, range.Middle, range.Late);
}
