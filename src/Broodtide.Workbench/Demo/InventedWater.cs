using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Readings;
using Broodtide.Domain.Vessels;
using Broodtide.Science.Water;
using Broodtide.Units;
using NodaTime;

namespace Broodtide.Workbench.Demo;

/// <summary>
/// What really happens to the water of an invented jar, so that its readings agree with its physics: it loses
/// water to the air and is read on a brine scale to the nearest half.
/// </summary>
internal sealed class InventedWater(
    StoryTeller story,
    Household house,
    VesselId jar,
    Instant start,
    double litres,
    double ppt,
    double lossMillilitresPerDay
)
{
    private static readonly Temperature Warm = Temperature.FromCelsius(24);

    private Instant _clock = start;
    private double _massKg = litres * Kilograms(ppt);
    private double _ppt = ppt;

    /// <summary>A look through the refractometer, wrong by some tenths.</summary>
    public void Read(Instant when, double wrongBy = 0)
    {
        Advance(when);
        var shown = Refractometer.BrineScaleShows(
            Salinity.FromPractical(_ppt + wrongBy),
            Warm,
            RefractometerZero.Water
        );
        var half = Math.Round(shown.Value * 2) / 2;
        story.Tell(
            when,
            new ReadingTaken(
                TypedNumber.Of(half, "sal:brine-g/kg"),
                jar,
                house.Refractometer,
                TypedNumber.Of(Warm.Celsius, "Cel")
            )
        );
    }

    /// <summary>Fresh water is poured in.</summary>
    public void TopUp(Instant when, double millilitres)
    {
        Advance(when);
        Join(millilitres / 1000, 0);
        story.Tell(when, new WaterMoved(To: jar, Volume: TypedNumber.Of(millilitres, "mL")));
    }

    /// <summary>Green water is given.</summary>
    public void Feed(Instant when, double millilitres, double greenPpt)
    {
        Advance(when);
        Join(millilitres / 1000, greenPpt);
        story.Tell(
            when,
            new VesselFed(
                jar,
                FoodKind.GreenWater,
                TypedNumber.Of(millilitres, "mL"),
                Density: TypedNumber.Of(800_000, UnitCode.CellsPerMillilitre),
                Salinity: TypedNumber.Of(greenPpt, UnitCode.PracticalSalinity)
            )
        );
    }

    /// <summary>A cup of larvae goes in.</summary>
    public void Enter(Instant when, double cupLitres, double cupPpt)
    {
        Advance(when);
        Join(cupLitres, cupPpt);
    }

    private void Join(double more, double morePpt)
    {
        var mass = more * Kilograms(morePpt);
        _ppt = ((_ppt * _massKg) + (morePpt * mass)) / (_massKg + mass);
        _massKg += mass;
    }

    private void Advance(Instant to)
    {
        var lost = (to - _clock).TotalDays * lossMillilitresPerDay / 1000;
        _ppt *= _massKg / (_massKg - lost);
        _massKg -= lost;
        _clock = to;
    }

    private static double Kilograms(double ppt) =>
        SeawaterDensity.Eos80(Salinity.FromPractical(ppt), Warm).Value.KilogramsPerCubicMetre / 1000;
}
