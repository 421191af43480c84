using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Readings;
using Broodtide.Domain.Vessels;
using Broodtide.Science.Estimation.Larvae;
using Broodtide.Units;
using NodaTime;

namespace Broodtide.Workbench.Population;

/// <summary>What each vessel did to its larvae, from temperatures, salinity and feeding as they were written down.</summary>
internal sealed class VesselCourses(
    House house,
    LedgerWater water,
    LarvalConditions conditions,
    LarvalClock clock,
    double nowDay
)
{
    // Where nobody read a thermometer: a heated room or a heater at the usual setting. An assumption.
    private const double UsualCelsius = 25;
    private const double Before = 15;
    private const double Ahead = 250;
    private const double StepDays = 0.5;

    // A vessel fed within this time has enough, within twice the time too little; then nothing. Practice, no source.
    private const double FedDays = 2.5;
    private const double ShortFood = 0.5;

    // A salinity known no better, as where a filling was never written, is held to be unknown.
    private const double MostSalinityWidthPpt = 8;

    private readonly Dictionary<VesselId, VesselCourse> _courses = [];
    private readonly Instant _since = clock.At(-Before);

    /// <summary>Whether any temperature of the vessel was known.</summary>
    public bool KnewWarmth { get; private set; } = true;

    /// <summary>
    /// Lowest and highest temperature that the courses rest on, degC: what was written of the vessels since a fortnight before the larvae, and the
    /// last before that. None where none was.
    /// </summary>
    public (double Lowest, double Highest)? Felt { get; private set; }

    public VesselCourse Of(VesselId vessel)
    {
        if (!_courses.TryGetValue(vessel, out var course))
        {
            _courses[vessel] = course = Tell(vessel);
        }

        return course;
    }

    private VesselCourse Tell(VesselId vessel)
    {
        var about = Subject.Of(vessel);
        var warmth = Warmth(about);
        KnewWarmth &= warmth.Count > 0;
        foreach (var (_, celsius) in warmth)
        {
            Felt = Felt is { } felt
                ? (Math.Min(felt.Lowest, celsius), Math.Max(felt.Highest, celsius))
                : (celsius, celsius);
        }

        var feedings = Feedings(about, vessel);
        var salinity = SaltOf(vessel);
        List<double> days = [-Before];
        List<double> development = [0];
        List<double> hazard = [0];
        var end = Math.Max(nowDay, 0) + 1;
        for (var day = -Before; day < end; day += StepDays)
        {
            Go(StepDays, At(warmth, day + (StepDays / 2)), FoodAt(feedings, day), At(salinity, day));
        }

        // Ahead: like the last ten days, fed.
        var recent = warmth.Where(reading => reading.Day >= nowDay - 10).ToList();
        var level =
            recent.Count > 0 ? recent.Average(reading => reading.Value)
            : warmth.Count > 0 ? warmth[^1].Value
            : UsualCelsius;
        Go(Ahead, level, 1, At(salinity, nowDay));
        return new(days, development, hazard);

        void Go(double length, double? celsius, double food, double? ppt)
        {
            var temperature = Temperature.FromCelsius(celsius ?? UsualCelsius);
            days.Add(days[^1] + length);
            development.Add(development[^1] + (length * conditions.DevelopmentPerDay(temperature, food)));
            hazard.Add(
                hazard[^1]
                    + (
                        length
                        * conditions.HazardFactor(
                            temperature,
                            ppt is { } known ? Salinity.FromPractical(Math.Clamp(known, 0, 60)) : null
                        )
                    )
            );
        }
    }

    // From a fortnight before the first larvae on, and the last before that: what was read years ago in the same jar says nothing of them.
    private List<(double Day, double Value)> Warmth(Subject about)
    {
        var readings = new List<(double Day, double Value)>();
        Take(house.Told<ReadingTaken>(about), fact => ((ReadingTaken)fact).Value.AsTemperature());
        Take(
            house.Told<HeaterChanged>(about),
            fact => fact is HeaterChanged { On: true } heater ? heater.Setting.AsTemperature() : null
        );
        Take(house.Told<VesselFilled>(about), fact => ((VesselFilled)fact).Temperature.AsTemperature());
        return [.. readings.OrderBy(reading => reading.Day).ThenBy(reading => reading.Value)];

        void Take(IReadOnlyList<Occurrence> told, Func<Fact, Temperature?> shown)
        {
            var hasOneBefore = false;
            for (var i = told.Count - 1; i >= 0; i--)
            {
                var isBefore = told[i].Happened.Latest < _since;
                if (
                    !(isBefore && hasOneBefore)
                    && shown(told[i].Fact)?.Celsius is { } celsius and >= 0 and <= 45
                )
                {
                    readings.Add((clock.DayOf(told[i].Happened.Middle), celsius));
                    hasOneBefore |= isBefore;
                }
            }
        }
    }

    private List<double> Feedings(Subject about, VesselId vessel)
    {
        var days = new List<double>();
        var told = house.Told<VesselFed>(about);
        var hasOneBefore = false;
        for (var i = told.Count - 1; i >= 0; i--)
        {
            var isBefore = told[i].Happened.Latest < _since;
            if (!(isBefore && hasOneBefore) && ((VesselFed)told[i].Fact).Vessel == vessel)
            {
                days.Add(clock.DayOf(told[i].Happened.Middle));
                hasOneBefore |= isBefore;
            }
        }

        days.Sort();
        return days;
    }

    // Where no feeding was ever written down nothing is known of food, and enough is supposed.
    private static double FoodAt(List<double> feedings, double day)
    {
        if (feedings.Count == 0 || day < feedings[0])
        {
            return 1;
        }

        var since = day - feedings[FirstAfter(feedings, day, fed => fed) - 1];
        return since <= FedDays ? 1
            : since <= 2 * FedDays ? ShortFood
            : 0;
    }

    private List<(double Day, double Value)> SaltOf(VesselId vessel)
    {
        var points = new List<(double Day, double Value)>();
        var ledgers = water.LedgersOf(vessel);
        for (var i = ledgers.Count - 1; i >= 0; i--)
        {
            var track = ledgers[i].Track;
            for (var at = track.Count - 1; at >= 0; at--)
            {
                if (track[at].SalinityPpt is { Width: <= MostSalinityWidthPpt } ppt)
                {
                    points.Add((clock.DayOf(track[at].At), ppt.Middle));
                    if (track[at].At < _since)
                    {
                        i = 0;
                        break;
                    }
                }
            }
        }

        points.Reverse();
        return [.. points.OrderBy(point => point.Day)];
    }

    private static double? At(List<(double Day, double Value)> readings, double day)
    {
        if (readings.Count == 0)
        {
            return null;
        }

        var next = FirstAfter(readings, day, reading => reading.Day);
        if (next == readings.Count)
        {
            return readings[^1].Value;
        }

        if (next == 0)
        {
            return readings[0].Value;
        }

        var (from, to) = (readings[next - 1], readings[next]);
        return from.Value + ((to.Value - from.Value) * (day - from.Day) / Math.Max(1e-9, to.Day - from.Day));
    }

    // In a list by days: the place of the first after a day, or its end.
    private static int FirstAfter<T>(List<T> sorted, double day, Func<T, double> dayOf)
    {
        var (low, high) = (0, sorted.Count);
        while (low < high)
        {
            var middle = (low + high) / 2;
            (low, high) = dayOf(sorted[middle]) <= day ? (middle + 1, high) : (low, middle);
        }

        return low;
    }
}
