using Broodtide.Domain.Readings;
using Broodtide.Units;
using Broodtide.Workbench.WaterLedger;
using MathNet.Numerics;
using NodaTime;

namespace Broodtide.Phone.Pages.Vessels;

/// <summary>A reading and a ledger that do not agree, and what might explain it.</summary>
/// <param name="Row">The line of the reading.</param>
/// <param name="Before">The line before it: what was forgotten happened after it.</param>
/// <param name="Next">The reading that settled it; none while none did.</param>
internal sealed record Misfit(LedgerRow Row, LedgerRow? Before, LedgerRow? Next)
{
    // A settled one is shown so long; then the table alone tells it.
    private static readonly Duration ShownFor = Duration.FromDays(7);

    /// <summary>The latest one worth showing; none if all agree.</summary>
    public static Misfit? Latest(VesselLedger ledger)
    {
        for (var at = ledger.Rows.Count - 1; at >= 0; at--)
        {
            var row = ledger.Rows[at];
            if (
                row is { Innovation: not null, Fit: ReadingFit.DoesNotFit or ReadingFit.Overruled }
                && row.Occurrence.Fact is ReadingTaken
                && (row.Fit is ReadingFit.DoesNotFit || ledger.Now - row.When < ShownFor)
            )
            {
                return new(
                    row,
                    at > 0 ? ledger.Rows[at - 1] : null,
                    ledger.Rows.Skip(at + 1).FirstOrDefault(next => next.Fit is ReadingFit.Fits)
                );
            }
        }

        return null;
    }

    /// <summary>What was read.</summary>
    public ReadingTaken Reading => (ReadingTaken)Row.Occurrence.Fact;

    /// <summary>What it means, ppt.</summary>
    public double SeenPpt => Row.Innovation!.Value.Seen;

    /// <summary>What the ledger expected, ppt.</summary>
    public double ExpectedPpt => Row.Innovation!.Value.Expected;

    /// <summary>If both were right, a reading would be so far off once in this many; two figures at most.</summary>
    public double OnceIn
    {
        get
        {
            // A chance this small is beyond what the errors are known to.
            var chance = Math.Max(
                1e-6,
                SpecialFunctions.Erfc(Math.Abs(Row.Innovation!.Value.Surprise) / Math.Sqrt(2))
            );
            var times = 1 / chance;
            var step = Math.Pow(10, Math.Max(0, Math.Floor(Math.Log10(times)) - 1));
            return Math.Round(times / step) * step;
        }
    }

    /// <summary>Fresh water that would explain it, if it was poured and not written; none where it reads too salt.</summary>
    public Volume? Forgotten =>
        SeenPpt > 0.5 && SeenPpt < ExpectedPpt
            ? Volume.FromLitres(Row.Litres.Middle * ((ExpectedPpt / SeenPpt) - 1))
            : null;
}
