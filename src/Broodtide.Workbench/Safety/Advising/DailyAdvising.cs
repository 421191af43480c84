using System.Collections.Immutable;
using Broodtide.Domain.Vessels;
using Broodtide.Science.Estimation.Vessels;
using Broodtide.Science.Food;
using Broodtide.Units;
using Broodtide.Workbench.Safety.Mending;
using Broodtide.Workbench.Species;
using Broodtide.Workbench.WaterLedger;

namespace Broodtide.Workbench.Safety.Advising;

/// <summary>
/// Advises what to give and to do today. Whatever would change the water is run forward first; a ration is as large as
/// nine of ten members bear for two days, and never more than still water can breathe.
/// </summary>
public static class DailyAdvising
{
    // Caridina villadolidi lived on 5e4 to 1e5 Tetraselmis/mL (abstract); the middle is aimed at. In between is enough.
    private const double LeastCells = 5e4;
    private const double WantedCells = 7.5e4;
    private const double MostCells = 2e5;

    // Dry food that water without air can breathe in a day, mg/L (practice, from its oxygen demand).
    private const double StillMilligramsPerLitre = 2;
    private const double AiredMilligramsPerLitre = 5;

    private const double Safe = 0.9;
    private const double WorthMeasuring = 0.15;
    private const int FoodMemoryHours = 14 * 24;
    private static readonly double[] Shares = [0.25, 0.5, 1, 1.5, 2];

    /// <summary>
    /// The advice of a vessel in pieces: nothing in each but the last, and nothing at all there where it has no twin.
    /// </summary>
    /// <param name="outlook">What is known.</param>
    /// <param name="safety">What is told of the vessel's water.</param>
    /// <param name="ledger">The ledger of that water.</param>
    public static IEnumerable<AdviceOfDay?> InPieces(
        Outlook outlook,
        VesselSafety safety,
        VesselLedger ledger
    )
    {
        if (safety.Run is not { } run || safety.Stage is null or LifeStage.Adult)
        {
            yield return null;
            yield break;
        }

        var lines = ImmutableArray.CreateBuilder<Advice>();
        var dose = Algae(outlook, safety, run);
        yield return null;
        lines.Add(dose);
        var isFed = dose.Cells.Middle <= 0;
        foreach (
            var food in run
                .Story.Foods.Where(food => food.Hour >= run.Story.NowHour - FoodMemoryHours)
                .GroupBy(food => (food.Food, food.Feed))
                .Select(foods => foods.Last())
        )
        {
            List<VesselTraces> tried = [];
            foreach (var share in Shares)
            {
                tried.Add(run.With(MendedScene.Fed(run.Story.Scene, run.Story.NowHour, food, share)));
                yield return null;
            }

            lines.Add(RationOf(safety, run, food, tried, isFed));
        }

        if (Lamp(safety, run) is { } lamp)
        {
            lines.Add(lamp);
        }

        if (Breath(safety, run) is { } air)
        {
            lines.Add(air);
        }

        if (Ripe(safety, run) is { } sponge)
        {
            lines.Add(sponge);
        }

        if (ledger.TopUp is { } top)
        {
            lines.Add(new Advice.TopUp(top.Each, top.Portions, new Remark("advice-topup")));
        }

        if (WorthReading(safety, run) is { } measure)
        {
            lines.Add(measure);
        }

        yield return new(safety.Vessel, lines.ToImmutable(), safety.Remarks);
    }

    private static Advice.Algae Algae(Outlook outlook, VesselSafety safety, VesselRun run)
    {
        var now = run.Ahead.Quantiles(VesselQuantity.CellsPerMillilitre, 0);
        var tomorrow = run.Ahead.Quantiles(VesselQuantity.CellsPerMillilitre, 24);
        var none = Interval.Exactly(0);
        if (now.Middle > MostCells)
        {
            return new(
                none,
                now,
                WantedCells,
                null,
                null,
                new Remark("advice-algae-too-green", new Argument("cellsPerMillilitre", now.Middle))
            );
        }

        if (tomorrow.Middle >= LeastCells)
        {
            return new(
                none,
                now,
                WantedCells,
                null,
                null,
                new Remark("advice-algae-enough", new Argument("cellsPerMillilitre", tomorrow.Middle))
            );
        }

        var millilitres = run.Now.Litres * 1000;
        var cells = Interval.FromPoints(
            Math.Max(0, WantedCells - now.High) * millilitres,
            Math.Max(0, WantedCells - now.Middle) * millilitres,
            Math.Max(0, WantedCells - now.Low) * millilitres
        );
        var scene = run.Story.Scene;
        var given = run.With(
            scene with
            {
                Events =
                [
                    .. scene
                        .Events.Append(new VesselEvent.AlgaeGiven(run.Story.NowHour, cells.Middle))
                        .OrderBy(done => done.Hour),
                ],
            }
        );
        if (!IsBorne(safety, given, out _) && IsBorne(safety, run.Ahead, out _))
        {
            return new(none, now, WantedCells, null, null, new Remark("advice-algae-would-harm"));
        }

        var culture = outlook
            .House.Vessels.Where(vessel =>
                vessel.Role is VesselRole.AlgaeCulture && vessel.Standing is not null
            )
            .Select(vessel =>
                (vessel.Id, Cells: GreenWater.Of(outlook.House, vessel.Id, outlook.Now).CellsPerMillilitre)
            )
            .Where(vessel => vessel.Cells > WantedCells)
            .OrderByDescending(vessel => vessel.Cells)
            .Select(vessel => ((Domain.VesselId Id, double Cells)?)vessel)
            .FirstOrDefault();
        var volume = culture is { } from
            ? FoodDose.InExchange(
                CellDensity.FromPerMillilitre(WantedCells),
                CellDensity.FromPerMillilitre(Math.Min(now.Middle, WantedCells)),
                Volume.FromLitres(run.Now.Litres),
                CellDensity.FromPerMillilitre(from.Cells)
            )
            : (Volume?)null;
        return new(
            cells,
            now,
            WantedCells,
            culture?.Id,
            volume,
            new Remark("advice-algae-short", new Argument("cellsPerMillilitre", tomorrow.Middle))
        );
    }

    private static Advice.Ration RationOf(
        VesselSafety safety,
        VesselRun run,
        FoodGiven food,
        List<VesselTraces> tried,
        bool isFed
    )
    {
        var members = run.Ahead.Members;
        var most = new double[members];
        for (var i = 0; i < tried.Count; i++)
        {
            IsBorne(safety, tried[i], out var bears);
            for (var member = 0; member < members; member++)
            {
                // Up to the first that is too much: a larger one is not tried.
                if (bears[member] && (i == 0 || most[member] >= Shares[i - 1]))
                {
                    most[member] = Shares[i];
                }
            }
        }

        var last = food.DryMass.Milligrams;
        var safe = MemberQuantiles.Of(most.Select(share => share * last).ToArray());
        var share = Shares.LastOrDefault(each => most.Count(own => own >= each) >= Safe * members);
        var still = run.Story.Scene.Hours[run.Story.NowHour].Air is AirFlow.None;
        var ceiling = (still ? StillMilligramsPerLitre : AiredMilligramsPerLitre) * run.Now.Litres;
        var ration = Math.Min(share * last, ceiling);
        var why =
            share <= 0 ? new Remark("advice-ration-none", new Argument("milligrams", last))
            : isFed ? new Remark("advice-ration-not-needed")
            : share * last > ceiling
                ? new Remark(
                    still ? "advice-ration-still" : "advice-ration-aired",
                    new Argument("milligramsPerLitre", ceiling / run.Now.Litres)
                )
            : new Remark("advice-ration-borne", new Argument("milligramsPerLitre", ration / run.Now.Litres));
        return new(food.Food, food.Feed, isFed ? 0 : ration, safe, why);
    }

    private static Advice.Light? Lamp(VesselSafety safety, VesselRun run)
    {
        var hours = run.Story.Scene.Hours;
        var lit = Enumerable.Range(run.Story.NowHour, 24).Count(hour => hours[hour].LightMicromoles > 0);
        if (lit == 0 && run.Ahead.Quantiles(VesselQuantity.CellsPerMillilitre, 0).Middle < 1e3)
        {
            return null;
        }

        var high = Find(safety, LimitedQuantity.Acidity, isUpper: true);
        if (high is { Level: >= SafetyLevel.Watch } && lit > 8)
        {
            return new(8, lit, new Remark("advice-light-less", new Argument("ph", high.Now.High)));
        }

        var ammonia = Find(safety, LimitedQuantity.UnionisedAmmonia, isUpper: true);
        if (ammonia is { Level: >= SafetyLevel.Watch } && lit is > 0 and < 16)
        {
            var longer = run.With(MendedScene.Of(run.Story, [new MendAct.Light(16)], NewWater(run)));
            var better = CrossingOfLimits.For(
                longer,
                VesselQuantity.UnionisedAmmonia,
                ammonia.Limit,
                0,
                longer.Hours
            );
            if (better.Value < ammonia.CrossedAhead.Value - 0.05)
            {
                return new(16, lit, new Remark("advice-light-more"));
            }
        }

        return new(lit, lit, new Remark("advice-light-same"));
    }

    private static NewWater NewWater(VesselRun run)
    {
        var hour = run.Story.Scene.Hours[run.Story.NowHour];
        return new(null, hour.Salinity, hour.Temperature.Celsius, IncomingWater.Clean);
    }

    private static Advice.Air? Breath(VesselSafety safety, VesselRun run)
    {
        var still = run.Story.Scene.Hours[run.Story.NowHour].Air is AirFlow.None;
        var oxygen = safety
            .Limits.Where(limit => limit.Limit.Quantity is LimitedQuantity.Oxygen)
            .MaxBy(limit => limit.CrossedAhead.Value);
        return oxygen is null ? null
            : still && oxygen.CrossedAhead.Value >= 0.1
                ? new(
                    On: true,
                    new Remark("advice-air-on", new Argument("chance", oxygen.CrossedAhead.Value))
                )
            : still ? new(On: false, new Remark("advice-air-still-well"))
            : new(On: true, new Remark("advice-air-keep"));
    }

    private static Advice.Sponge? Ripe(VesselSafety safety, VesselRun run)
    {
        var ammonia = Find(safety, LimitedQuantity.UnionisedAmmonia, isUpper: true);
        return ammonia is { Level: >= SafetyLevel.Watch } && run.Story.Scene.Site.FilterSquareCentimetres <= 0
            ? new(new Remark("advice-sponge"))
            : null;
    }

    /// <summary>
    /// The reading that would tell most about the worst limit: how well the quantity now goes with how far the limit is
    /// passed, over the members, less what the error of a keeper's means takes away.
    /// </summary>
    private static Advice.Measure? WorthReading(VesselSafety safety, VesselRun run)
    {
        var open = safety
            .Limits.Where(limit =>
                CrossingOfLimits.QuantityOf(limit.Limit.Quantity) is not null
                && limit.CrossedAhead.Value is > 0.05 and < 0.95
            )
            .OrderByDescending(limit => limit.Level)
            .ThenByDescending(limit => limit.CrossedAhead.Value * limit.CrossedAhead.Opposite)
            .FirstOrDefault();
        if (open is null)
        {
            return null;
        }

        var quantity = CrossingOfLimits.QuantityOf(open.Limit.Quantity)!.Value;
        var outcome = run.Ahead.Extremes(quantity, 0, run.Ahead.Hours, open.Limit.IsUpper);
        var (best, share) = (VesselQuantity.Tan, 0.0);
        var values = new double[run.Ahead.Members];
        foreach (
            var readable in (VesselQuantity[])
                [
                    VesselQuantity.Tan,
                    VesselQuantity.PHNbs,
                    VesselQuantity.Oxygen,
                    VesselQuantity.Nitrite,
                    VesselQuantity.Nitrate,
                    VesselQuantity.CellsPerMillilitre,
                ]
        )
        {
            run.Ahead.Read(readable, 0, values);
            var told = Told(values, outcome, readable);
            if (told > share)
            {
                (best, share) = (readable, told);
            }
        }

        return share >= WorthMeasuring
            ? new(
                best,
                Probability.FromFraction(Math.Min(1, share)),
                new Remark("advice-measure", new Argument("chance", share))
            )
            : null;
    }

    private static double Told(double[] values, ImmutableArray<double> outcome, VesselQuantity quantity)
    {
        var (meanX, meanY) = (values.Average(), outcome.Average());
        var (xx, yy, xy) = (0.0, 0.0, 0.0);
        for (var i = 0; i < values.Length; i++)
        {
            var (dx, dy) = (values[i] - meanX, outcome[i] - meanY);
            (xx, yy, xy) = (xx + (dx * dx), yy + (dy * dy), xy + (dx * dy));
        }

        if (xx <= 0 || yy <= 0)
        {
            return 0;
        }

        var usual = VesselReading.Measured.AtHome(0, quantity, Math.Max(0, meanX));
        var error = (usual.Sd * usual.Sd) + Math.Pow(usual.Share * meanX, 2);
        var variance = xx / values.Length;
        return xy * xy / (xx * yy) * (variance / (variance + error));
    }

    private static LimitAhead? Find(VesselSafety safety, LimitedQuantity quantity, bool isUpper) =>
        safety
            .Limits.Where(limit => limit.Limit.Quantity == quantity && limit.Limit.IsUpper == isUpper)
            .MaxBy(limit => limit.CrossedAhead.Value);

    // Member by member: no limit that harms is passed for as long as matters.
    private static bool IsBorne(VesselSafety safety, VesselTraces traces, out bool[] bears)
    {
        bears = new bool[traces.Members];
        Array.Fill(bears, value: true);
        foreach (var limit in safety.Limits)
        {
            if (
                CrossingOfLimits.QuantityOf(limit.Limit.Quantity) is { } quantity
                && limit.Limit.Quantity is not LimitedQuantity.Nitrate
            )
            {
                CrossingOfLimits.Unless(traces, quantity, limit.Limit, bears);
            }
        }

        return bears.Count(bear => bear) >= Safe * bears.Length;
    }
}
