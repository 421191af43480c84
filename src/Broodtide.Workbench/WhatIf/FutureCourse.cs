using Broodtide.Science.Estimation.Larvae;
using Broodtide.Science.Estimation.Vessels;

namespace Broodtide.Workbench.WhatIf;

/// <summary>What a vessel does to its larvae: the past as it was learned, then the scene that lies ahead.</summary>
internal static class FutureCourse
{
    /// <summary>
    /// Algae that are food enough, cells/mL: 5e4 of Tetraselmis gave over 85 % survival (Su, thesis on
    /// Caridina villadolidi, abstract read).
    /// </summary>
    internal const double EnoughCells = 50_000;

    // As the estimate of larvae holds it of the past: fed within this time is enough, within twice the time half.
    // Practice, no source.
    private const int FedHours = 60;
    private const double ShortFood = 0.5;
    private const int StepHours = 6;

    // Beyond the scene it goes on like its last day.
    private const double BeyondDays = 250;

    /// <summary>Whether larvae are fed by it.</summary>
    internal static bool IsMeal(VesselEvent done) =>
        done
            is VesselEvent.Fed
                or VesselEvent.AlgaeGiven
                or VesselEvent.WaterMoved { Added.Litres: > 0, Incoming.CellsPerMillilitre: > 0 };

    /// <summary>The course of a vessel.</summary>
    /// <param name="larvae">Its larvae; the course up to now is theirs.</param>
    /// <param name="scene">The scene.</param>
    /// <param name="from">Hour of the scene that is now.</param>
    /// <param name="to">Hour at which it ends.</param>
    /// <param name="cells">Algae in the water day by day, cells/mL, middle of the members; the first is the day from now.</param>
    /// <param name="isFoodKnown">Whether a feeding was ever written down; where none was, enough is supposed.</param>
    public static VesselCourse Of(
        WhatIfLarvae larvae,
        VesselScene scene,
        int from,
        int to,
        IReadOnlyList<double> cells,
        bool isFoodKnown
    )
    {
        var past = larvae.Run.Courses[larvae.Vessel];
        var now = larvae.Run.Now;
        List<double> days = [];
        List<double> development = [];
        List<double> hazard = [];
        for (var i = 0; i < past.Days.Length && past.Days[i] < now; i++)
        {
            Corner(past.Days[i], past.DevelopmentDays[i], past.HazardDays[i]);
        }

        Corner(now, past.DevelopmentAt(now), past.HazardAt(now));
        var meals = scene.Events.Where(IsMeal).Select(done => done.Hour).Order().ToArray();
        for (var hour = from; hour < to; hour += StepHours)
        {
            var until = Math.Min(to, hour + StepHours);
            Go((until - hour) / 24.0, scene.Hours[(hour + until) / 2], Food(hour));
        }

        Go(BeyondDays, scene.Hours[to - 1], Food(to - 1));
        return new(days, development, hazard);

        void Corner(double day, double gone, double met)
        {
            days.Add(day);
            development.Add(gone);
            hazard.Add(met);
        }

        void Go(double length, VesselHour hour, double food) =>
            Corner(
                days[^1] + length,
                development[^1] + (length * larvae.Conditions.DevelopmentPerDay(hour.Temperature, food)),
                hazard[^1] + (length * larvae.Conditions.HazardFactor(hour.Temperature, hour.Salinity))
            );

        double Food(int hour)
        {
            var green = Math.Min(1, cells[Math.Clamp((hour - from) / 24, 0, cells.Count - 1)] / EnoughCells);
            if (!isFoodKnown)
            {
                return 1;
            }

            var next = Array.BinarySearch(meals, hour);
            next = next < 0 ? ~next : next + 1;
            var since = hour - (next == 0 ? from : meals[next - 1]);
            return Math.Max(
                green,
                since <= FedHours ? 1
                    : since <= 2 * FedHours ? ShortFood
                    : 0
            );
        }
    }
}
