using Broodtide.Domain;
using Broodtide.Domain.Broods;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Domain.Larvae;
using Broodtide.Domain.Readings;
using Broodtide.Domain.Vessels;
using NodaTime;

namespace Broodtide.Workbench.Dossiers;

/// <summary>
/// The entries of a journal that tell a run: of the run, its brood, its mother, its cohorts; of the vessels its larvae
/// lived in while they did, with whoever shared their water; of the water, food and instruments that these speak of.
/// What was taken back or erased is not among them; what was corrected is, with its corrections.
/// </summary>
public sealed class RunEntries
{
    // The warmth before a brood was first seen moves its forecast.
    private static readonly Duration BeforeBerried = Duration.FromDays(45);

    private readonly House _house;
    private readonly Dictionary<EntryId, Occurrence> _taken = [];
    private readonly HashSet<VesselId> _larval = [];
    private readonly Queue<(VesselId Vessel, Instant From, Instant To, bool Lived)> _toTell = new();
    private readonly HashSet<(VesselId, Instant, Instant, bool)> _told = [];

    private RunEntries(House house) => _house = house;

    /// <summary>The entries of runs.</summary>
    /// <param name="house">Everything that is known.</param>
    /// <param name="runs">The runs; one without a brood is passed over.</param>
    /// <returns>The entries in the order in which they were written down.</returns>
    public static IReadOnlyList<Entry> Of(House house, IReadOnlyList<RunId> runs)
    {
        ArgumentNullException.ThrowIfNull(house);
        ArgumentNullException.ThrowIfNull(runs);
        var telling = new RunEntries(house);
        foreach (var run in runs)
        {
            telling.Tell(house.Run(run));
        }

        return telling.WithCorrections();
    }

    private void Tell(Run run)
    {
        if (run.Brood is not { } id)
        {
            return;
        }

        var brood = _house.Brood(id);
        var end = run.Ended?.When.Latest ?? Instant.MaxValue;
        var began = brood.FirstSeenBerried?.Earliest ?? run.Started?.Earliest ?? Instant.MinValue;
        var from = began < Instant.MinValue + BeforeBerried ? Instant.MinValue : began - BeforeBerried;
        Take(Subject.Of(run.Id), Instant.MinValue, Instant.MaxValue, _ => true);
        Take(Subject.Of(id), Instant.MinValue, Instant.MaxValue, _ => true);
        if (brood.Animal is { } mother)
        {
            // Her other broods are other runs.
            Take(
                Subject.Of(mother),
                Instant.MinValue,
                end,
                fact => fact is not AnimalSeenBerried other || other.Brood == id
            );
        }

        foreach (var cohort in _house.Cohorts.Where(cohort => cohort.Brood == id))
        {
            Take(Subject.Of(cohort.Id), Instant.MinValue, end, _ => true);
            foreach (var group in cohort.Groups)
            {
                _larval.Add(group.Vessel);
                Queue(group.Vessel, FillStart(group.Vessel, group.Since.Earliest), end, lived: true);
            }
        }

        foreach (var vessel in NamedIn(_taken.Values).Where(vessel => !_larval.Contains(vessel)).ToList())
        {
            Queue(vessel, from, end, lived: false);
        }

        TellVessels();
        TellInstruments();
        TellHouse(from, end);
    }

    private void TellVessels()
    {
        while (_toTell.TryDequeue(out var next))
        {
            if (!_told.Add(next))
            {
                continue;
            }

            TakeBefore(next.Vessel, next.From);
            var found = Take(
                Subject.Of(next.Vessel),
                next.From,
                next.To,
                fact => next.Lived || !OfAnimals(fact)
            );
            foreach (var source in found.SelectMany(occurrence => SourcesOf(occurrence.Fact, next.Vessel)))
            {
                Queue(
                    source,
                    FillStart(source, found.Min(occurrence => occurrence.Happened.Earliest)),
                    next.To,
                    _larval.Contains(source)
                );
            }
        }
    }

    // What a vessel is and how its standing water was filled in, though that was before.
    private void TakeBefore(VesselId vessel, Instant from)
    {
        var earlier = _house
            .Account.About(Subject.Of(vessel))
            .Where(occurrence => occurrence.Happened.Latest < from)
            .ToList();
        foreach (
            var occurrence in new[]
            {
                earlier.LastOrDefault(one => one.Fact is VesselSetUp),
                earlier.LastOrDefault(one => one.Fact is CultureDescribed),
                earlier.LastOrDefault(one => one.Fact is VesselFilled filled && filled.Vessel == vessel),
            }
        )
        {
            if (occurrence is not null)
            {
                _taken[occurrence.Id] = occurrence;
            }
        }
    }

    private void TellInstruments()
    {
        var instruments = _taken
            .Values.SelectMany(occurrence => occurrence.Fact.Subjects())
            .Where(subject => subject.Kind is SubjectKind.Instrument)
            .Distinct()
            .ToList();
        foreach (var instrument in instruments)
        {
            Take(
                instrument,
                Instant.MinValue,
                Instant.MaxValue,
                fact => fact is InstrumentDescribed or InstrumentCalibrated
            );
        }
    }

    private void TellHouse(Instant from, Instant end)
    {
        var feeds = _taken
            .Values.Select(occurrence => (occurrence.Fact as VesselFed)?.Feed)
            .Where(feed => feed is not null)
            .ToHashSet(StringComparer.OrdinalIgnoreCase);
        Take(
            Subject.House,
            Instant.MinValue,
            Instant.MaxValue,
            fact => fact is FeedDescribed feed && feeds.Contains(feed.Name) || fact is ProfileValueChosen
        );
        Take(Subject.House, from, end, fact => fact is PowerFailed or PowerRestored);
        // A photo or note that goes with an entry of the run belongs to it.
        Take(
            Subject.House,
            Instant.MinValue,
            Instant.MaxValue,
            fact => fact is PhotoAdded { Entry: { } entry } && _taken.ContainsKey(entry)
        );
    }

    private List<Occurrence> Take(Subject about, Instant from, Instant to, Func<Fact, bool> wanted)
    {
        var found = _house
            .Account.About(about)
            .Where(occurrence =>
                occurrence.Happened.Latest >= from
                && occurrence.Happened.Earliest <= to
                && wanted(occurrence.Fact)
            )
            .ToList();
        foreach (var occurrence in found)
        {
            _taken[occurrence.Id] = occurrence;
        }

        return found;
    }

    private void Queue(VesselId vessel, Instant from, Instant to, bool lived) =>
        _toTell.Enqueue((vessel, from, to, lived));

    // The beginning of the water that stood in a vessel at an instant.
    private Instant FillStart(VesselId vessel, Instant at) =>
        _house
            .Vessel(vessel)
            .Fills.LastOrDefault(fill => fill.Began is { } began && began.Earliest <= at)
            ?.Began?.Earliest
        ?? at;

    private static IEnumerable<VesselId> NamedIn(IEnumerable<Occurrence> occurrences) =>
        occurrences
            .SelectMany(occurrence => occurrence.Fact.Subjects())
            .Where(subject => subject.Kind is SubjectKind.Vessel)
            .Select(subject => new VesselId(subject.Id))
            .Distinct();

    private static IEnumerable<VesselId> SourcesOf(Fact fact, VesselId into)
    {
        VesselId? source = fact switch
        {
            WaterMoved moved when moved.To == into => moved.From,
            VesselFilled filled when filled.Vessel == into => filled.From,
            VesselFed fed when fed.Vessel == into => fed.From,
            CrossingMade made when made.To == into => made.Source,
            CohortsMoved moved when moved.To == into => moved.From,
            CohortSplit split when split.To == into => split.From,
            CultureDescribed culture when culture.Vessel == into => culture.From,
            _ => null,
        };
        if (source is { } there && there != into)
        {
            yield return there;
        }
    }

    private static bool OfAnimals(Fact fact) =>
        fact.GetType().Namespace is { } room
        && (
            room.EndsWith(".Larvae", StringComparison.Ordinal)
            || room.EndsWith(".Broods", StringComparison.Ordinal)
            || room.EndsWith(".Animals", StringComparison.Ordinal)
        );

    private List<Entry> WithCorrections()
    {
        var entries = new Dictionary<Digest, Entry>();
        void Add(Entry entry)
        {
            if (entry.HasBody && entries.TryAdd(entry.Digest, entry))
            {
                foreach (var correction in _house.Account.CorrectionsOf(entry.Id))
                {
                    Add(correction);
                }
            }
        }

        foreach (var occurrence in _taken.Values)
        {
            Add(occurrence.First);
            Add(occurrence.Told);
        }

        return [.. entries.Values.Order(Comparer<Entry>.Create(OrderOfTelling.ByWriting))];
    }
}
