using Broodtide.Phone.Language;
using Broodtide.Workbench.TideLine;

namespace Broodtide.Phone.Pictures;

/// <summary>A tide line in one paragraph.</summary>
internal sealed class TideSummary(Words words, PictureText text, TideSayings sayings)
{
    public string Of(TideLineRecord record)
    {
        var told = TideWords.Of(record);
        List<string> parts =
        [
            words["tide.of", record.Name],
            Standing(record),
            .. Was(record),
            .. told.Where(word =>
                    word.Tense == TideTense.Expected
                    && word.Code != TideWordCode.NightChance
                    && word.Code != TideWordCode.BreachExpected
                )
                .Select(word => words["tide.expected", sayings.Said(record, word)]),
            .. Minding(record, told),
        ];
        return string.Join(" ", parts.Where(part => part.Length > 0));
    }

    private string Standing(TideLineRecord record)
    {
        if (record.Ends.Count > 0)
        {
            return string.Join(
                " ",
                record.Ends.Select(end =>
                    words[
                        end.Kind == TideEndKind.Home ? "tide.cameHome" : "tide.wasEnded",
                        sayings.LongDay(record.Zone, end.At)
                    ]
                )
            );
        }

        var readout = TideReadout.Of(record, record.Now);
        var day = text.Whole(TideFleet.SeaDay(record, record.Now) ?? 0);
        List<string> parts =
        [
            readout switch
            {
                { InSea: false } => words["tide.stands.carried"],
                { SalinityPpt: { } ppt } => words["tide.stands.sea", day, text.Ppt(ppt.Middle)],
                _ => words["tide.stands.seaUnmeasured", day],
            },
        ];
        if (readout.Alive is { } some)
        {
            var (low, high) = (text.Whole(some.Low), text.Whole(some.High));
            parts.Add(
                record.AliveIsRough
                    ? words["tide.stands.rough", low, high]
                    : words["tide.stands.alive", text.Whole(some.Middle), low, high]
            );
        }

        if (readout.Stages.Count > 0)
        {
            parts.Add(
                words["tide.stands.mostly", sayings.Joined(readout.Stages.Select(one => one.Stage.Name))]
            );
        }

        return words["tide.stands", string.Join(", ", parts)];
    }

    private IEnumerable<string> Was(TideLineRecord record)
    {
        if (record.Brood.FirstSeenBerried is { } berried)
        {
            yield return words["tide.berried", sayings.LongDay(record.Zone, berried)];
        }

        if (record.Crossings.Count > 0)
        {
            yield return words[
                record.Crossings.Count == 1 ? "tide.crossing" : "tide.crossings",
                text.Range(
                    record.Zone,
                    record.Crossings.Min(one => one.At),
                    record.Crossings.Max(one => one.At)
                ),
                text.Larvae(record.Crossings.Sum(one => one.Larvae.Middle)),
                text.Whole(record.Crossings.Count)
            ];
        }

        if (record.NoneSeenSince is { } none)
        {
            yield return words["tide.noneSeen", sayings.LongDay(record.Zone, none)];
        }
    }

    private IEnumerable<string> Minding(TideLineRecord record, IReadOnlyList<TideWord> told) =>
        told.Where(word =>
                word.Code
                    is TideWordCode.BreachExpected
                        or TideWordCode.NowLaterThanNineInTen
                        or TideWordCode.DoesNotFit
            )
            .Select(word =>
                word.Tense == TideTense.Now
                    ? words["tide.mind", sayings.Said(record, word)]
                    : words["tide.mind.on", sayings.LongDay(record.Zone, word.At), sayings.Said(record, word)]
            );
}
