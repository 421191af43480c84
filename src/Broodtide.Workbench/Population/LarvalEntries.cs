using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Larvae;
using Broodtide.Domain.Vessels;
using Broodtide.Science.Counting;
using Broodtide.Science.Estimation.Larvae;
using Broodtide.Units;
using Broodtide.Workbench.Looking;
using Broodtide.Workbench.Species;
using NodaTime;

namespace Broodtide.Workbench.Population;

/// <summary>
/// Turns what was written down of a group's larvae into events of an estimate. What cannot be is said beside the
/// entry and left out; nothing is refused.
/// </summary>
internal sealed class LarvalEntries
{
    // Hours a larva waits in fresh water before it crosses strain it: an assumption, see the note of
    // larva-fresh-water-free-hours in the profile.
    private const double StrainPerWaitingDay = 0.35;
    private const double StrainPerBrackishHour = 0.2;
    private const double MostStrain = 8;
    private const double UnsaidCv = 0.8;
    private const double MostSeen = 1e6;
    private static readonly Duration SameCount = Duration.FromHours(6);

    private readonly House _house;
    private readonly SpeciesProfile _profile;
    private readonly LarvalGroup _group;
    private readonly LarvalClock _clock;
    private readonly Instant _now;
    private readonly Func<VesselId, Instant, Volume?> _water;
    private readonly Func<VesselId, Instant, bool> _othersThere;
    private readonly LookClasses _looks;
    private readonly List<LarvalCell> _cells = [];
    private readonly List<LarvalEvent> _events = [];
    private readonly List<Occurrence> _entries = [];
    private readonly List<Remark> _conflicts = [];
    private readonly string[] _stages;
    private readonly Dictionary<CohortId, double> _crossed = [];

    internal LarvalEntries(
        House house,
        SpeciesProfile profile,
        LarvalGroup group,
        LarvalClock clock,
        Instant now,
        Func<VesselId, Instant, Volume?> water,
        Func<VesselId, Instant, bool> othersThere,
        Func<DoubleCounts> doubles
    )
    {
        _house = house;
        _profile = profile;
        _group = group;
        _clock = clock;
        _now = now;
        _water = water;
        _othersThere = othersThere;
        var calibrations = new Dictionary<string, CountCalibration>(StringComparer.OrdinalIgnoreCase);
        _looks = new(
            doubles,
            setup =>
                calibrations.TryGetValue(setup, out var known)
                    ? known
                    : calibrations[setup] = SetupCalibrations.Of(house, setup, now).Calibration,
            group
        );
        _stages = [.. profile.Stages.Select(stage => stage.Code)];
        Tell();
    }

    public IReadOnlyList<LarvalCell> Cells => _cells;

    public IReadOnlyList<LarvalEvent> Events => _events;

    /// <summary>The entries by the tags of their events.</summary>
    public IReadOnlyList<Occurrence> Entries => _entries;

    public IReadOnlyList<Remark> Conflicts => _conflicts;

    public IReadOnlyList<ShareBelief> Looks => _looks.Beliefs;

    private void Tell()
    {
        // Cells in the order of cohorts and vessels, so that the same set of entries has the same cells.
        var left = 0;
        foreach (var cohort in _group.Cohorts)
        {
            foreach (var vessel in cohort.Groups.Select(part => part.Vessel).Distinct())
            {
                if (_cells.Count < LarvalRun.MostCells)
                {
                    _cells.Add(new(VesselNumber(vessel), CohortNumber(cohort.Id)));
                }
                else
                {
                    left++;
                }
            }
        }

        if (left > 0)
        {
            _conflicts.Add(
                new Remark("alive-too-many-parts", new("most", LarvalRun.MostCells), new("left", left))
            );
        }

        var told = _group
            .Vessels.Select(Subject.Of)
            .Concat(_group.Cohorts.Select(cohort => Subject.Of(cohort.Id)))
            .Concat(
                _group.Cohorts.Select(cohort => cohort.Brood).OfType<BroodId>().Distinct().Select(Subject.Of)
            )
            .SelectMany(SpeakingOfLarvae)
            .DistinctBy(occurrence => occurrence.Id)
            .Where(occurrence => occurrence.Happened.Middle <= _now && !IsOfOthers(occurrence))
            .Order(OrderOfTelling.Instance)
            .ToList();
        foreach (var occurrence in told)
        {
            Tell(occurrence, told);
        }

        End();
    }

    // A jar of ten years has thousands of readings and feedings, which tell nothing here.
    private IEnumerable<Occurrence> SpeakingOfLarvae(Subject subject) =>
        [
            .. _house.Told<CrossingMade>(subject),
            .. _house.Told<CohortsMoved>(subject),
            .. _house.Told<CohortSplit>(subject),
            .. _house.Told<CountMade>(subject),
            .. _house.Told<StageSampleTaken>(subject),
            .. _house.Told<DeadRemoved>(subject),
            .. _house.Told<SettlementSeen>(subject),
            .. _house.Told<JuvenilesReturned>(subject),
            .. _house.Told<JuvenilesGivenAway>(subject),
            .. _house.Told<VesselEmptied>(subject),
        ];

    private void Tell(Occurrence occurrence, List<Occurrence> told)
    {
        var tag = _entries.Count;
        var day = _clock.DayOf(occurrence.Happened.Middle);
        var before = _events.Count;
        switch (occurrence.Fact)
        {
            case CrossingMade crossing:
                Cross(crossing, occurrence, day, tag);
                break;
            case CohortsMoved moved when moved.From != moved.To:
                Move(moved.From, moved.To, moved.Cohorts, moved.Number, day, tag);
                break;
            case CohortSplit split when split.From != split.To:
                Split(split, day, tag);
                break;
            case CountMade count:
                Count(count, occurrence, told, day, tag);
                break;
            case StageSampleTaken sample:
                Stage(sample, occurrence, day, tag);
                break;
            case DeadRemoved { Number: > 0 } dead when IsOurs(dead.Vessel):
                _events.Add(new DeadFound(day, tag, (int)Math.Min(MostSeen, dead.Number)));
                break;
            case SettlementSeen seen when In(seen.Vessel, day) is var cells and not 0:
                _events.Add(new SettledSeen(day, tag, cells, Math.Clamp(seen.Number ?? 1, 1, (int)MostSeen)));
                break;
            case JuvenilesReturned home when In(home.From, day, home.Cohort) is var cells and not 0:
                _events.Add(new Removed(day, tag, cells, NumberOf(home.Number), Settled: true));
                break;
            case JuvenilesGivenAway given when In(given.Vessel, day) is var cells and not 0:
                _events.Add(new Removed(day, tag, cells, NumberOf(given.Number), Settled: true));
                break;
            case VesselEmptied emptied when In(emptied.Vessel, day) is var cells and not 0:
                _events.Add(new Removed(day, tag, cells, null));
                break;
            default:
                break;
        }

        if (_events.Count > before)
        {
            _entries.Add(occurrence);
            Doubt(occurrence);
        }
    }

    private static double? NumberOf(int? number) =>
        number is { } known ? Math.Clamp(known, 0, MostSeen) : null;

    private void Cross(CrossingMade crossing, Occurrence occurrence, double day, int tag)
    {
        var cell = Cell(crossing.Cohort, crossing.To);
        if (cell < 0)
        {
            return;
        }

        var (number, method) = Said(crossing);
        var (own, shared) = LarvalBeliefs.NumberError(method);
        var waited = WaitedDays(crossing, occurrence.Happened.Middle);
        var strain =
            1
            + (StrainPerWaitingDay * waited)
            + (StrainPerBrackishHour * (crossing.BrackishMinutes.AsMinutes() ?? 0) / 60);
        var expected = number ?? Unsaid(crossing.Brood);
        _crossed[crossing.Cohort] = _crossed.GetValueOrDefault(crossing.Cohort) + expected;
        _events.Add(
            new Arrived(
                day,
                tag,
                cell,
                expected,
                number is null ? UnsaidCv : own,
                number is null ? 0 : shared,
                // In fresh water larvae live on their yolk and get on a little.
                Math.Min(waited, 3) / 2,
                Math.Min(MostStrain, strain)
            )
        );
    }

    // The number at the crossing; else the sum of its collections, as they were counted.
    private (double? Number, CountMethod? Method) Said(CrossingMade crossing)
    {
        if (NumberOf(crossing.Number) is { } number)
        {
            return (number, crossing.Method);
        }

        var gathered = (crossing.Collections ?? [])
            .Select(id =>
                _house.Brood(crossing.Brood).Gatherings.FirstOrDefault(g => g.Made.Collection == id)
            )
            .Where(gathering => gathering?.Made.Number is not null)
            .ToList();
        return gathered.Count == 0
            ? (null, null)
            : (
                Math.Min(MostSeen, gathered.Sum(gathering => Math.Max(0.0, gathering!.Made.Number!.Value))),
                gathered[0]!.Made.Method
            );
    }

    private double Unsaid(BroodId brood)
    {
        var usual = _profile.Quantity(QuantityCodes.LarvaePerBrood);
        var crossings = _group.Cohorts.Count(cohort => cohort.Brood == brood);
        return Math.Sqrt(usual.Low!.Value * usual.High!.Value) / Math.Max(1, crossings);
    }

    private double WaitedDays(CrossingMade crossing, Instant crossed)
    {
        var gathered = (crossing.Collections ?? [])
            .Select(id =>
                _house.Brood(crossing.Brood).Gatherings.FirstOrDefault(g => g.Made.Collection == id)
            )
            .Where(gathering => gathering is not null)
            .Select(gathering => (crossed - gathering!.When.Middle).TotalDays)
            .Where(days => days > 0)
            .ToList();
        return gathered.Count == 0 ? 0 : Math.Min(10, gathered.Average());
    }

    private void Move(
        VesselId from,
        VesselId to,
        IReadOnlyList<CohortId>? cohorts,
        int? number,
        double day,
        int tag
    )
    {
        var moving = (cohorts ?? [.. _group.Cohorts.Select(cohort => cohort.Id)])
            .Distinct()
            .Select(cohort => (Cohort: cohort, From: Cell(cohort, from), To: Cell(cohort, to)))
            .Where(pair => pair.From >= 0 && pair.To >= 0 && Lives(pair.From, day))
            .ToList();
        var all = moving.Sum(pair => _crossed.GetValueOrDefault(pair.Cohort, 1));
        foreach (var (cohort, source, target) in moving)
        {
            // Nobody said who they were: each cohort by what crossed of it.
            var share = all > 0 ? _crossed.GetValueOrDefault(cohort, 1) / all : 1.0 / moving.Count;
            _events.Add(
                new Moved(day, tag, source, target, NumberOf(number) is { } some ? some * share : null)
            );
        }
    }

    private void Split(CohortSplit split, double day, int tag)
    {
        var (from, to) = (Cell(split.Cohort, split.From), Cell(split.Cohort, split.To));
        if (from < 0 || to < 0 || !Lives(from, day))
        {
            return;
        }

        var number = NumberOf(split.Number);
        if (number is null)
        {
            _conflicts.Add(new Remark("split-number-unsaid", new Argument("cohort", split.Cohort)));
        }

        _events.Add(new Moved(day, tag, from, to, number, number is null ? 0.5 : null));
    }

    private void Count(CountMade count, Occurrence occurrence, List<Occurrence> told, double day, int tag)
    {
        if (!IsOurs(count.Vessel))
        {
            return;
        }

        var cells = In(count.Vessel, day, count.Cohort);
        if (cells == 0)
        {
            _conflicts.Add(
                new Remark(
                    "count-before-any-crossing",
                    new("vessel", count.Vessel),
                    new("entry", occurrence.Id)
                )
            );
            return;
        }

        var seen = (int)Math.Min(MostSeen, count.Samples.Sum(sample => (double)Math.Max(0, sample.Seen)));
        CountEvidence? evidence = count.Method switch
        {
            // A picture of a known number teaches the counting; the number itself is told where it was counted.
            _ when count.Samples.Count == 0 || count.Pictures?.Known is not null => null,
            CountMethod.Aliquot => Aliquots(count, occurrence),
            CountMethod.Full when Agrees(count, occurrence, told, seen) => new ExactEvidence(seen),
            // The more there are, the more are missed or counted twice: an assumption.
            CountMethod.Full => new FullEvidence(seen, 0.03 + (0.0001 * Math.Min(seen, 2000))),
            _ => _looks.Evidence(occurrence.Author.Name, count, seen),
        };
        if (evidence is not null)
        {
            _events.Add(new Counted(day, tag, cells, evidence));
        }
    }

    // Trusted exactly only where a second full count of the same water agreed.
    private static bool Agrees(CountMade count, Occurrence occurrence, List<Occurrence> told, int seen) =>
        told.Any(other =>
            other.Id != occurrence.Id
            && other.Fact is CountMade { Method: CountMethod.Full } second
            && (second.Again || count.Again)
            && second.Vessel == count.Vessel
            && second.Cohort == count.Cohort
            && second.Samples.Sum(sample => (double)sample.Seen) == seen
            && (other.Happened.Middle - occurrence.Happened.Middle) is var apart
            && apart < SameCount
            && apart > -SameCount
        );

    private AliquotEvidence? Aliquots(CountMade count, Occurrence occurrence)
    {
        var water = _water(count.Vessel, occurrence.Happened.Middle)?.Litres;
        if (water is not > 0)
        {
            _conflicts.Add(
                new Remark("count-water-unknown", new("vessel", count.Vessel), new("entry", occurrence.Id))
            );
            return null;
        }

        var samples = new List<SampledShare>();
        foreach (var sample in count.Samples)
        {
            if (sample.Volume.AsVolume()?.Litres is not { } litres || litres <= 0)
            {
                _conflicts.Add(
                    new Remark(
                        "count-aliquot-without-volume",
                        new("aliquots", 1),
                        new("vessel", count.Vessel),
                        new("entry", occurrence.Id)
                    )
                );
                continue;
            }

            if (litres > water * 1.02)
            {
                _conflicts.Add(
                    new Remark(
                        "count-aliquots-exceed-water",
                        new("sampledLitres", litres),
                        new("waterLitres", water.Value),
                        new("vessel", count.Vessel),
                        new("entry", occurrence.Id)
                    )
                );
                continue;
            }

            samples.Add(
                new((int)Math.Clamp(sample.Seen, 0, MostSeen), Math.Clamp(litres / water.Value, 1e-6, 1))
            );
        }

        return samples.Count == 0 ? null : new(samples);
    }

    private void Stage(StageSampleTaken sample, Occurrence occurrence, double day, int tag)
    {
        var cells = In(sample.Vessel, day, sample.Cohort);
        var tallies = new int[_stages.Length];
        foreach (var tally in sample.Stages)
        {
            var place = Array.FindIndex(
                _stages,
                stage => string.Equals(stage, tally.Stage, StringComparison.OrdinalIgnoreCase)
            );
            if (place < 0)
            {
                _conflicts.Add(
                    new Remark(
                        "stage-unknown-to-species",
                        new("stage", tally.Stage),
                        new("species", _profile.ScientificName),
                        new("entry", occurrence.Id)
                    )
                );
                continue;
            }

            tallies[place] += (int)Math.Clamp(tally.Number, 0, 10_000);
        }

        if (cells != 0 && tallies.Sum() > 0)
        {
            _events.Add(new Staged(day, tag, cells, tallies));
        }
    }

    // A run the keeper ended is over for its larvae, whatever was left.
    private void End()
    {
        foreach (var cohort in _group.Cohorts)
        {
            if (
                cohort.Brood is { } brood
                && _house.RunOf(brood)?.Ended is { } ended
                && ended.When.Middle <= _now
            )
            {
                var number = CohortNumber(cohort.Id);
                ulong cells = 0;
                for (var cell = 0; cell < _cells.Count; cell++)
                {
                    cells |= _cells[cell].Cohort == number ? 1UL << cell : 0;
                }

                // Tags of entries come first.
                _events.Add(new Removed(_clock.DayOf(ended.When.Middle), -1 - number, cells, null));
            }
        }
    }

    // More taken out than can have been there is said, not refused.
    private void Doubt(Occurrence occurrence)
    {
        var (number, what) = occurrence.Fact switch
        {
            JuvenilesReturned home => (home.Number, "juveniles"),
            JuvenilesGivenAway given => (given.Number, "juveniles"),
            CohortSplit split => (split.Number, "larvae"),
            CohortsMoved moved => (moved.Number, "larvae"),
            DeadRemoved dead => (dead.Number, "dead"),
            _ => (null, ""),
        };
        var known = _crossed.Values.Sum();
        if (number is { } some && known > 0 && some > 2 * known)
        {
            _conflicts.Add(
                new Remark(
                    "more-than-can-live",
                    new("what", what),
                    new("number", some),
                    new("crossed", Math.Round(known)),
                    new("entry", occurrence.Id)
                )
            );
        }
    }

    // A vessel serves one brood after another: what was seen in it while only others lived there is theirs.
    private bool IsOfOthers(Occurrence occurrence)
    {
        VesselId? vessel = occurrence.Fact switch
        {
            CountMade { Cohort: null } count => count.Vessel,
            StageSampleTaken { Cohort: null } sample => sample.Vessel,
            DeadRemoved dead => dead.Vessel,
            SettlementSeen seen => seen.Vessel,
            JuvenilesReturned { Cohort: null } home => home.From,
            JuvenilesGivenAway given => given.Vessel,
            VesselEmptied emptied => emptied.Vessel,
            CohortsMoved { Cohorts: null } moved => moved.From,
            _ => null,
        };
        return vessel is { } there && _othersThere(there, occurrence.Happened.Middle);
    }

    private bool IsOurs(VesselId vessel) => VesselNumber(vessel) >= 0;

    // Whether larvae came into a cell by that day.
    private bool Lives(int cell, double day) =>
        _events.Any(happened =>
            happened.Day <= day
            && (
                happened is Arrived arrived && arrived.Cell == cell
                || happened is Moved moved && moved.To == cell
            )
        );

    private ulong In(VesselId vessel, double day, CohortId? cohort = null)
    {
        var number = VesselNumber(vessel);
        ulong cells = 0;
        for (var cell = 0; cell < _cells.Count; cell++)
        {
            if (
                _cells[cell].Vessel == number
                && (cohort is not { } only || _cells[cell].Cohort == CohortNumber(only))
                && Lives(cell, day)
            )
            {
                cells |= 1UL << cell;
            }
        }

        return cells;
    }

    private int Cell(CohortId cohort, VesselId vessel)
    {
        var (ofCohort, ofVessel) = (CohortNumber(cohort), VesselNumber(vessel));
        return _cells.FindIndex(cell => cell.Cohort == ofCohort && cell.Vessel == ofVessel);
    }

    private int CohortNumber(CohortId cohort)
    {
        for (var i = 0; i < _group.Cohorts.Count; i++)
        {
            if (_group.Cohorts[i].Id == cohort)
            {
                return i;
            }
        }

        return -1;
    }

    private int VesselNumber(VesselId vessel)
    {
        for (var i = 0; i < _group.Vessels.Count; i++)
        {
            if (_group.Vessels[i] == vessel)
            {
                return i;
            }
        }

        return -1;
    }
}
