using Broodtide.Domain;
using Broodtide.Domain.Broods;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Larvae;
using Broodtide.Phone.Language;
using Broodtide.Workbench;
using NodaTime;

namespace Broodtide.Phone.Pages.Runs;

/// <summary>One line of what was written of a run's larvae.</summary>
/// <param name="When">When.</param>
/// <param name="Line">What was written.</param>
/// <param name="Entry">The entry.</param>
public sealed record WrittenLine(Instant When, string Line, EntryId Entry);

/// <summary>What is written down of the larvae of a brood: as counted, nothing estimated.</summary>
internal sealed class RunTold(Words words, Formats formats, Naming naming, Outlook outlook, Brood brood)
{
    private readonly House _house = outlook.House;

    /// <summary>Crossings, oldest first.</summary>
    public IReadOnlyList<WrittenLine> Crossings =>
        [
            .. brood.Crossings.Select(crossing => new WrittenLine(
                crossing.When.Latest,
                Joined(
                    crossing.Made.Number is { } number
                        ? words["brood.sign.crossed", number, naming.Of(_house, crossing.Made.To)]
                        : words["brood.sign.crossedSome", naming.Of(_house, crossing.Made.To)],
                    crossing.Made.Method is { } method ? words[$"run.method.{method}"] : null,
                    crossing.Made.BrackishMinutes.AsMinutes() is { } minutes
                        ? words["run.crossing.minutes", formats.Plain(minutes, 1)]
                        : null
                ),
                crossing.Entry
            )),
        ];

    /// <summary>Larvae in the crossings that have a number.</summary>
    public int Crossed =>
        (int)
            Math.Min(
                int.MaxValue,
                brood.Crossings.Sum(crossing => (long)Math.Max(0, crossing.Made.Number ?? 0))
            );

    /// <summary>Crossings without a number.</summary>
    public int WithoutNumber => brood.Crossings.Count(crossing => crossing.Made.Number is null);

    /// <summary>Counts, stage samples, dead and settlement in its vessels while its larvae lived there, newest first.</summary>
    public IReadOnlyList<WrittenLine> Counts()
    {
        var lines = new List<WrittenLine>();
        var ended = _house.RunOf(brood.Id)?.Ended?.When.Latest;
        foreach (var vessel in _house.VesselsOf(brood.Id))
        {
            var since = _house
                .Cohorts.Where(cohort => cohort.Brood == brood.Id)
                .SelectMany(cohort => cohort.Groups)
                .Where(group => group.Vessel == vessel.Id)
                .Min(group => group.Since.Earliest);
            foreach (var occurrence in _house.Account.About(Subject.Of(vessel.Id)))
            {
                if (
                    occurrence.Happened.Latest >= since
                    && (ended is not { } over || occurrence.Happened.Earliest <= over)
                    && Line(occurrence) is { } line
                )
                {
                    lines.Add(new(occurrence.Happened.Latest, line, occurrence.Id));
                }
            }
        }

        lines.Reverse();
        return [.. lines.OrderByDescending(line => line.When)];
    }

    private string? Line(Occurrence occurrence) =>
        occurrence.Fact switch
        {
            CountMade count => Joined(
                Counted(count),
                words[$"run.method.{count.Method}"],
                occurrence.IsCorrected ? words["run.count.corrected"] : null
            ),
            StageSampleTaken sample => words[
                "run.count.stages",
                sample.Stages.Sum(tally => tally.Number),
                string.Join(", ", sample.Stages.Select(tally => $"{tally.Number} {tally.Stage}"))
            ],
            DeadRemoved dead => words["run.dead", dead.Number],
            SettlementSeen => words["run.settled"],
            _ => null,
        };

    private string Counted(CountMade count)
    {
        var seen = count.Samples.Sum(sample => sample.Seen);
        return count.Method is not CountMethod.Aliquot ? words["run.count.seen", seen]
            : count.Samples.Select(sample => sample.Volume.AsVolume()).Distinct().ToList() is [{ } volume]
                ? words["run.count.aliquot", seen, count.Samples.Count, formats.Amount(volume)]
            : words["run.count.aliquots", seen, count.Samples.Count];
    }

    private static string Joined(params ReadOnlySpan<string?> parts)
    {
        var said = new List<string>();
        foreach (var part in parts)
        {
            if (part is not null)
            {
                said.Add(part);
            }
        }

        return string.Join(", ", said);
    }
}
