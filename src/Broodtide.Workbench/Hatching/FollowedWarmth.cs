using Broodtide.Domain;
using Broodtide.Domain.Animals;
using Broodtide.Domain.Broods;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Readings;
using Broodtide.Domain.Vessels;
using Broodtide.Science.Development;
using Broodtide.Units;
using NodaTime;

namespace Broodtide.Workbench.Hatching;

/// <summary>The temperatures that followed a brood: of the vessels its mother was in, or where its eggs lie.</summary>
internal sealed class FollowedWarmth
{
    /// <summary>
    /// Standard deviation of a reading whose instrument says nothing of it, degC: an aquarium thermometer read to
    /// half a degree. An assumption.
    /// </summary>
    public const double UsualErrorCelsius = 0.3;

    /// <summary>
    /// Standard deviation of the level when a heater's setting is all that is known, degC: how far a setting may
    /// lie from the water. An assumption.
    /// </summary>
    public const double HeaterSdCelsius = 1.5;

    private const double DaysBefore = 70;
    private const double LowestCelsius = -5;
    private const double HighestCelsius = 50;

    private FollowedWarmth(
        IReadOnlyList<FollowedTemperature> readings,
        TemperatureAssumption assumption,
        WarmthSource source,
        IReadOnlyList<Remark> remarks
    )
    {
        Readings = readings;
        Assumption = assumption;
        Source = source;
        Remarks = remarks;
    }

    public IReadOnlyList<FollowedTemperature> Readings { get; }

    public TemperatureAssumption Assumption { get; }

    public WarmthSource Source { get; }

    public IReadOnlyList<Remark> Remarks { get; }

    public static FollowedWarmth Of(House house, Brood brood, DayAxis axis, Instant now)
    {
        var remarks = new List<Remark>();
        var animal = brood.Animal is { } id ? house.Animal(id) : null;
        var fallback = Fallback(house, animal, remarks);
        var until = Instant.Min(now, brood.FirstLarvae?.Latest ?? now);
        var readings = new List<FollowedTemperature>();
        Temperature? setting = null;
        foreach (var vessel in Vessels(brood, animal, fallback))
        {
            var since = axis.InstantOf(-DaysBefore);
            foreach (var occurrence in house.Account.AboutSince(Subject.Of(vessel), since))
            {
                var when = occurrence.Happened.Middle;
                var day = axis.DayOf(when);
                if (when > until || day < -DaysBefore || PlaceAt(brood, animal, fallback, when) != vessel)
                {
                    continue;
                }

                switch (occurrence.Fact)
                {
                    case ReadingTaken reading when reading.Value.AsTemperature() is { } shown:
                        Take(house, reading, shown, when, day, readings, remarks);
                        break;
                    case HeaterChanged heater:
                        setting = heater.On ? heater.Setting.AsTemperature() ?? setting : null;
                        break;
                    default:
                        break;
                }
            }
        }

        var assumption = setting is { Celsius: >= 5 and <= 40 } level
            ? new TemperatureAssumption
            {
                Mean = level,
                Sd = TemperatureDifference.FromCelsius(HeaterSdCelsius),
            }
            : ReferencePriors.UncontrolledRoom;
        return new(
            readings,
            assumption,
            ReferenceEquals(assumption, ReferencePriors.UncontrolledRoom)
                ? WarmthSource.UnmeasuredRoom
                : WarmthSource.HeaterSetting,
            remarks
        );
    }

    private static void Take(
        House house,
        ReadingTaken reading,
        Temperature shown,
        Instant when,
        double day,
        List<FollowedTemperature> readings,
        List<Remark> remarks
    )
    {
        var instrument = reading.Instrument is { } device ? house.Instrument(device) : null;
        var celsius = shown.Celsius - Fault(instrument, when);
        if (celsius is < LowestCelsius or > HighestCelsius)
        {
            remarks.Add(new Remark("hatch-temperature-not-used", new("celsius", celsius), new("when", when)));
            return;
        }

        readings.Add(
            new(day, Temperature.FromCelsius(celsius), TemperatureDifference.FromCelsius(Error(instrument)))
        );
    }

    // What the thermometer showed too much when it was last held against a standard.
    private static double Fault(Instrument? instrument, Instant when) =>
        instrument?.CalibrationAt(when)?.Finding is { Adjusted: false } finding
        && finding.Shown.AsTemperature() is { } shown
        && finding.Standard.AsTemperature() is { } standard
        && Math.Abs(shown.Celsius - standard.Celsius) <= 10
            ? shown.Celsius - standard.Celsius
            : 0;

    private static double Error(Instrument? instrument) =>
        instrument?.Description is { Error: { } error and >= 0 and <= 30 } described
            ? Math.Min(20, described.Scale == "[degF]" ? error / 1.8 : error)
            : UsualErrorCelsius;

    private static IEnumerable<VesselId> Vessels(Brood brood, Animal? animal, VesselId? fallback)
    {
        var all = (animal?.Places ?? [])
            .Select(place => place.Vessel)
            .Append(fallback)
            .Append(brood.DroppedIn);
        return all.OfType<VesselId>().Distinct();
    }

    private static VesselId? PlaceAt(Brood brood, Animal? animal, VesselId? fallback, Instant when) =>
        brood.Dropped is { } dropped && when > dropped.Middle && brood.DroppedIn is { } lie
            ? lie
            : animal?.PlaceAt(when) ?? fallback;

    // Nobody wrote where she is: if the house has one brood tank, she is taken to be there.
    private static VesselId? Fallback(House house, Animal? animal, List<Remark> remarks)
    {
        if (animal is { Places.Count: > 0 })
        {
            return null;
        }

        var tanks = house.Vessels.Where(vessel => vessel.Role is VesselRole.BroodTank).Take(2).ToList();
        if (tanks is [var only])
        {
            remarks.Add(new Remark("hatch-place-assumed", new Argument("vessel", only.Id)));
            return only.Id;
        }

        remarks.Add(new Remark("hatch-place-unknown"));
        return null;
    }
}
