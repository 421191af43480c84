using Broodtide.Science.Water;
using Broodtide.Units;
using Broodtide.Workbench.Crossing;
using Broodtide.Workbench.Mixing;

namespace Broodtide.Workbench.Tests;

/// <summary>
/// Plays a plan back from the volumes it tells the keeper and nothing else, with a balance of its own: grams of
/// water, grams times salinity, grams times degrees.
/// </summary>
internal sealed class CrossingReplay
{
    private CrossingReplay(CrossingPlan plan) => _plan = plan;

    private readonly CrossingPlan _plan;

    public List<WaterBody> Cup { get; } = [];

    public List<WaterBody> Receiving { get; } = [];

    public double MinutesBrackish { get; private set; }

    public double FullestCupLitres { get; private set; }

    public double LeastCupLitres { get; private set; } = double.MaxValue;

    public double SourceLitres { get; private set; }

    /// <summary>Greatest error of salt or water against what went in and out, relative.</summary>
    public double WorstImbalance { get; private set; }

    public static CrossingReplay Of(CrossingPlan plan)
    {
        var replay = new CrossingReplay(plan);
        replay.PlayCup();
        return replay;
    }

    private void PlayCup()
    {
        var cup = Bucket.From(_plan.Order.Cup);
        var source = _plan.Order.Source;
        FullestCupLitres = cup.Litres;
        var minute = 0.0;
        foreach (var step in _plan.Steps)
        {
            Assert.Equal(minute, step.OffsetMinutes, 1e-6);
            var before = cup;
            cup = cup.WithoutLitres(step.DrawOff.Litres);
            LeastCupLitres = Math.Min(LeastCupLitres, cup.Litres);
            FullestCupLitres = Math.Max(FullestCupLitres, cup.Litres + step.Add.Litres);
            cup = cup.Plus(Bucket.From(source with { Volume = step.Add }));
            FullestCupLitres = Math.Max(FullestCupLitres, cup.Litres);
            SourceLitres += step.Add.Litres;
            Cup.Add(cup.ToBody());
            Balance(before, step);
            if (IsBrackish(cup.Salinity))
            {
                MinutesBrackish += step.StandMinutes;
            }

            minute += step.StandMinutes;
        }

        Assert.Equal(minute, _plan.PourAtMinutes, 1e-6);
        PlayPouring(cup);
    }

    // What was, less what was drawn, plus what was added, against what the plan says is there afterwards.
    private void Balance(Bucket before, CrossingStep step)
    {
        var told = Bucket.From(step.After);
        var drawn = before.LitresOf(step.DrawOff.Litres);
        var added = Bucket.From(_plan.Order.Source with { Volume = step.Add });
        var grams = before.Grams - drawn.Grams + added.Grams;
        var salt = before.Salt - drawn.Salt + added.Salt;
        var scale = before.Salt + added.Salt;
        WorstImbalance = Math.Max(
            WorstImbalance,
            Math.Abs(told.Grams - grams) / (before.Grams + added.Grams)
        );
        WorstImbalance = Math.Max(WorstImbalance, scale > 0 ? Math.Abs(told.Salt - salt) / scale : 0);
    }

    private void PlayPouring(Bucket cup)
    {
        var pouring = _plan.Pouring;
        var vessel = Bucket.From(_plan.Order.Receiving).WithoutLitres(pouring.ReceivingDrawOff.Litres);
        cup = cup.WithoutLitres(pouring.CupDrawOff.Litres);
        var minute = _plan.PourAtMinutes;
        foreach (var portion in pouring.Portions)
        {
            if (IsBrackish(cup.Salinity))
            {
                MinutesBrackish += portion.OffsetMinutes - minute;
            }

            minute = portion.OffsetMinutes;
            vessel = vessel.Plus(cup.LitresOf(portion.Amount.Litres));
            cup = cup.WithoutLitres(portion.Amount.Litres);
            Receiving.Add(vessel.ToBody());
        }

        Assert.True(cup.Litres < 1e-6, $"{cup.Litres} L are left in the cup.");
    }

    private bool IsBrackish(double salinity) =>
        salinity > _plan.Order.Brackish.Lower.Practical + 1e-8
        && salinity < _plan.Order.Brackish.Upper.Practical - 1e-8;
}

/// <summary>Water in a test's own balance.</summary>
internal readonly record struct Bucket(double Grams, double Salt, double Heat)
{
    public double Salinity => Grams > 0 ? Salt / Grams : 0;

    public double Celsius => Grams > 0 ? Heat / Grams : 0;

    public double Litres => Grams > 0 ? Grams / Density(Salinity, Celsius) : 0;

    public static Bucket From(WaterBody body)
    {
        var grams = body.Volume.Litres * Density(body.Salinity.Practical, body.Temperature.Celsius);
        return new(grams, grams * body.Salinity.Practical, grams * body.Temperature.Celsius);
    }

    public Bucket Plus(Bucket other) => new(Grams + other.Grams, Salt + other.Salt, Heat + other.Heat);

    public Bucket LitresOf(double litres)
    {
        var grams = Grams > 0 ? litres * Density(Salinity, Celsius) : 0;
        return new(grams, grams * Salinity, grams * Celsius);
    }

    public Bucket WithoutLitres(double litres)
    {
        var part = LitresOf(litres);
        return new(Grams - part.Grams, Salt - part.Salt, Heat - part.Heat);
    }

    public WaterBody ToBody() =>
        new(
            Volume.FromLitres(Math.Max(0, Litres)),
            Units.Salinity.FromPractical(Math.Max(0, Salinity)),
            Temperature.FromCelsius(Celsius)
        );

    private static double Density(double salinity, double celsius) =>
        SeawaterDensity
            .Eos80(Units.Salinity.FromPractical(Math.Max(0, salinity)), Temperature.FromCelsius(celsius))
            .Value.KilogramsPerCubicMetre;
}
