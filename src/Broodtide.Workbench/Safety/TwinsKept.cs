using System.Collections.Immutable;
using Broodtide.Domain;
using Broodtide.Science.Estimation.Vessels;

namespace Broodtide.Workbench.Safety;

/// <summary>
/// Twins that are gone on with from one outlook to the next: each from the last day whose story is the same. A new entry
/// costs the hours from its own on.
/// </summary>
internal sealed class TwinsKept
{
    /// <summary>Suppositions in an ensemble: a chance is told to a hundredth.</summary>
    public const int Members = 100;

    private const int HoursOfDay = 24;
    private const int ReadingsOfPiece = 4;
    private const int PastHours = 48;
    private const int PastEvery = 3;

    private static readonly VesselQuantity[] Told =
    [
        VesselQuantity.Oxygen,
        VesselQuantity.UnionisedAmmonia,
        VesselQuantity.Tan,
        VesselQuantity.Nitrite,
        VesselQuantity.PHNbs,
        VesselQuantity.CellsPerMillilitre,
        VesselQuantity.FilmShare,
    ];

    private readonly Dictionary<VesselId, Kept> _kept = [];

    /// <summary>Hours run so far, over all vessels: what an entry costs.</summary>
    public int HoursRun { get; private set; }

    /// <summary>The run of a story in pieces of a day: nothing in each but the last.</summary>
    public IEnumerable<VesselRun?> InPieces(VesselStory story)
    {
        _kept.TryGetValue(story.Vessel, out var before);
        // Whoever breaks off leaves nothing half done behind.
        _kept.Remove(story.Vessel);
        var kept = new Kept(story);
        var same = before is null ? 0 : before.Story.SameUntil(story);
        var from =
            before?.Days.Keys.Where(hour => hour <= same && hour <= story.NowHour).DefaultIfEmpty(-1).Max()
            ?? -1;
        if (from >= 0)
        {
            kept.Take(before!, from);
        }
        else
        {
            kept.Days[0] = VesselEnsemble.Draw(
                story.Scene,
                story.Believed,
                VesselPriors.Usual,
                Members,
                // The same vessel draws the same on every machine.
                BitConverter.ToUInt64(story.Vessel.Value.ToByteArray())
            );
            from = 0;
            yield return null;
        }

        var members = kept.Days[from];
        var read = story.Readings.Where(it => it.Reading.Hour >= from).ToList();
        var next = 0;
        while (true)
        {
            var hour = members.Hour;
            for (; next < read.Count && read[next].Reading.Hour <= hour; next++)
            {
                var update = VesselUpdating.With(members, read[next].Reading, story.Scene);
                members = update.Members;
                if (!update.IsExplained)
                {
                    kept.Odd.Add((hour, new(read[next].Entry, update.Tail)));
                }

                if (next % ReadingsOfPiece == ReadingsOfPiece - 1)
                {
                    yield return null;
                }
            }

            if (hour >= story.NowHour)
            {
                break;
            }

            var day = ((hour / HoursOfDay) + 1) * HoursOfDay;
            var until = Math.Min(day, story.NowHour);
            if (next < read.Count)
            {
                until = Math.Min(until, read[next].Reading.Hour);
            }

            var (traces, end) = VesselTwin.Forward(members, story.Scene, until - hour);
            HoursRun += until - hour;
            Remember(kept, story, traces);
            members = end;
            if (until == day)
            {
                kept.Days[until] = members;
                yield return null;
            }
        }

        yield return null;
        var ahead = VesselTwin.Forward(members, story.Scene, VesselStory.HoursAhead).Traces;
        HoursRun += VesselStory.HoursAhead;
        _kept[story.Vessel] = kept;
        yield return new VesselRun(
            story,
            members,
            ahead,
            [.. kept.Odd.Select(odd => odd.Reading)],
            new Dictionary<int, VesselEnsemble>(kept.Days),
            kept.Past.Where(point => point.Hour >= story.NowHour - PastHours && point.Hour < story.NowHour)
                .GroupBy(point => point.Quantity)
                .ToDictionary(
                    group => group.Key,
                    group => group.Select(point => point.Point).ToImmutableArray()
                )
        );
    }

    private static void Remember(Kept kept, VesselStory story, VesselTraces traces)
    {
        for (var place = 0; place < traces.Hours; place++)
        {
            var hour = traces.FromHour + place;
            // The past is kept for the days that a page draws.
            if (hour % PastEvery != 0 || hour < story.NowHour - PastHours - HoursOfDay)
            {
                continue;
            }

            foreach (var quantity in Told)
            {
                kept.Past.Add((hour, quantity, new(story.At(hour), traces.Quantiles(quantity, place))));
            }
        }
    }

    private sealed class Kept(VesselStory story)
    {
        public VesselStory Story => story;

        /// <summary>Members at the beginning of days, before what is read in that hour is learned.</summary>
        public Dictionary<int, VesselEnsemble> Days { get; } = [];

        public List<(int Hour, OddReading Reading)> Odd { get; } = [];

        public List<(int Hour, VesselQuantity Quantity, VesselPoint Point)> Past { get; } = [];

        public void Take(Kept before, int from)
        {
            foreach (var (hour, members) in before.Days.Where(day => day.Key <= from))
            {
                Days[hour] = members;
            }

            Odd.AddRange(before.Odd.Where(odd => odd.Hour < from));
            Past.AddRange(before.Past.Where(point => point.Hour < from));
        }
    }
}
