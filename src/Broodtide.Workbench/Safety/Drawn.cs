using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Larvae;
using Broodtide.Workbench.WaterLedger;
using NodaTime;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Workbench.Safety;

/// <summary>A ledger's water at the hours of a clock.</summary>
internal sealed class Drawn
{
    private const double LeastLitres = 0.01;

    // Salt falls out of water that is saltier: what a mistyped weight tells is no water.
    private const double MostPpt = 300;
    private readonly double[] _litres;
    private readonly double[] _salinity;

    public Drawn(VesselLedger ledger, Instant start, int hours)
    {
        _litres = new double[hours + 1];
        _salinity = new double[hours + 1];
        var track = ledger.Track;
        var next = 0;
        for (var hour = 0; hour <= hours; hour++)
        {
            var at = start + Duration.FromHours(hour);
            while (next < track.Count && track[next].At <= at)
            {
                next++;
            }

            var before = track.Count == 0 ? null : (LedgerPoint?)track[Math.Max(0, next - 1)];
            var after = next < track.Count ? (LedgerPoint?)track[next] : null;
            var share =
                before is { } from && after is { } to && to.At > from.At && at > from.At
                    ? (at - from.At).TotalHours / (to.At - from.At).TotalHours
                    : 0;
            _litres[hour] = Math.Max(
                LeastLitres,
                Between(before?.Litres ?? ledger.Litres, after?.Litres, share)
            );
            _salinity[hour] = Math.Clamp(
                Between(before?.SalinityPpt ?? ledger.SalinityPpt, after?.SalinityPpt, share),
                0,
                MostPpt
            );
        }
    }

    public double Litres(int hour) => _litres[Math.Clamp(hour, 0, _litres.Length - 1)];

    public double Salinity(int hour) => _salinity[Math.Clamp(hour, 0, _salinity.Length - 1)];

    private static double Between(Interval from, Interval? to, double share) =>
        from.Middle + (share * ((to ?? from).Middle - from.Middle));
}

/// <summary>
/// How many larvae live in a vessel, roughly: those told to have come, less those that die by the species' usual hazard.
/// For their breath and appetite alone; how many are alive is estimated elsewhere.
/// </summary>
internal sealed class LarvaeTold
{
    private const double UnknownNumber = 100;
    private readonly List<(Instant At, double Number)> _came = [];
    private readonly double _hazard;

    public LarvaeTold(IReadOnlyList<Occurrence> told, VesselId vessel, double hazardPerDay)
    {
        _hazard = hazardPerDay;
        foreach (var occurrence in told)
        {
            var came = occurrence.Fact switch
            {
                CrossingMade crossing when crossing.To == vessel => crossing.Number ?? UnknownNumber,
                CohortsMoved moved when moved.To == vessel => moved.Number ?? 0,
                CohortsMoved moved when moved.From == vessel => -(moved.Number ?? 0),
                CohortSplit split when split.To == vessel => split.Number ?? 0,
                CohortSplit split when split.From == vessel => -(split.Number ?? 0),
                DeadRemoved dead => -dead.Number,
                JuvenilesReturned returned when returned.From == vessel => -(returned.Number ?? 0),
                _ => 0.0,
            };
            if (came != 0)
            {
                _came.Add((occurrence.Happened.Middle, came));
            }
        }
    }

    public Interval At(Instant at)
    {
        var number = 0.0;
        foreach (var (when, came) in _came)
        {
            if (when <= at)
            {
                number =
                    came < 0
                        ? Math.Max(0, number + came)
                        : number + (came * Math.Exp(-_hazard * (at - when).TotalDays));
            }
        }

        // Half to a third more: counts by sight and deaths nobody saw.
        return Interval.FromPoints(0.5 * number, number, 1.35 * number);
    }
}
