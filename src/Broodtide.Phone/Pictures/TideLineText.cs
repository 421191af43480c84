using Broodtide.Phone.Language;
using Broodtide.Workbench.TideLine;
using NodaTime;

namespace Broodtide.Phone.Pictures;

/// <summary>The tide line in words: its lines, and what the cross-hair reads.</summary>
internal sealed class TideLineText(Words words, PictureText text)
{
    private readonly TideSayings _sayings = new(words, text);

    public string LongDay(DateTimeZone zone, Instant at) => _sayings.LongDay(zone, at);

    /// <summary>One line: when, on which day of the sea phase, what.</summary>
    public string Line(TideLineRecord record, TideWord word)
    {
        var said = _sayings.Said(record, word);
        if (word.Corrected && word.Code != TideWordCode.CorrectedEntry)
        {
            said = words["tide.corrected", said];
        }

        return word.Tense switch
        {
            TideTense.Now => words["tide.line.now", said],
            TideTense.Expected => words["tide.line.expected", When(record, word), said],
            _ => words["tide.line", When(record, word), said],
        };
    }

    /// <summary>The picture in one paragraph: where it is, what was, what comes, what needs minding.</summary>
    public string Summary(TideLineRecord record) => new TideSummary(words, text, _sayings).Of(record);

    /// <summary>What the cross-hair reads at an instant.</summary>
    public string Readout(TideLineRecord record, TideReadout readout)
    {
        List<string> parts =
        [
            words[
                readout switch
                {
                    { InSea: false } => record.Brood.FirstSeenBerried is { } from && readout.At >= from
                        ? "tide.read.fresh"
                        : "tide.read.before",
                    { SalinityPpt: null } => "tide.read.notMeasured",
                    _ => "tide.read.ppt",
                },
                text.Ppt(readout.SalinityPpt?.Middle ?? 0)
            ],
        ];
        if (readout.Alive is { } alive)
        {
            parts.Add(
                readout.AliveIsRough
                    ? text.Alive(alive, rough: true)
                    : words["tide.read.alive", text.Whole(alive.Middle)]
            );
        }

        if (readout.Stages.Count > 0)
        {
            parts.Add(_sayings.Joined(readout.Stages.Select(stage => stage.Stage.Name)));
        }

        return words[
            readout.Expected ? "tide.read.expected" : "tide.line",
            text.Day(record.Zone, readout.At),
            string.Join(", ", parts)
        ];
    }

    /// <summary>The stages of a row of the table.</summary>
    public string Stages(TideReadout readout) =>
        string.Join(
            ", ",
            readout.Stages.Select(stage => $"{stage.Stage.Name} {text.PerCent(stage.Share)}\u00a0%")
        );

    private string When(TideLineRecord record, TideWord word)
    {
        var days = word.Until is { } until
            ? words["tide.to", LongDay(record.Zone, word.At), LongDay(record.Zone, until)]
            : LongDay(record.Zone, word.At);
        return word.SeaDay is >= 0 and var passed ? words["tide.seaDay", days, text.Whole(passed)] : days;
    }
}
