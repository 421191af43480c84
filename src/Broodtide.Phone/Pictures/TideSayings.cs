using Broodtide.Phone.Language;
using Broodtide.Workbench.TideLine;
using NodaTime;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Phone.Pictures;

/// <summary>What one word of the tide line says, as a clause that a line or a summary takes in.</summary>
internal sealed class TideSayings(Words words, PictureText text)
{
    public string LongDay(DateTimeZone zone, Instant at) => text.Days.Long(at.InZone(zone).Date);

    /// <summary>One, two and three.</summary>
    public string Joined(IEnumerable<string> parts)
    {
        var list = parts.ToList();
        return list.Count < 2
            ? string.Concat(list)
            : words["list.and", string.Join(", ", list.SkipLast(1)), list[^1]];
    }

    public string Said(TideLineRecord record, TideWord word) =>
        word.Code switch
        {
            TideWordCode.BroodMark => words["tide.mark." + (word.Mark?.ToString() ?? "StillCarried")],
            TideWordCode.NightCollected => words[
                "tide.NightCollected",
                text.Larvae(word.Number!.Value.Middle)
            ],
            TideWordCode.NightChance => words["tide.NightChance", text.PerCent(word.Chance ?? 0)],
            TideWordCode.Crossing => words[
                "tide.Crossing",
                Larvae(word.Number),
                word.Name ?? words["tide.seaWater"]
            ],
            TideWordCode.Count => words[
                "tide.Count",
                word.Name ?? words["tide.theVessel"],
                Larvae(word.Number)
            ],
            TideWordCode.Joined or TideWordCode.Split => words[
                "tide." + word.Code,
                word.Name ?? "",
                word.OtherName ?? words["tide.anotherVessel"]
            ],
            TideWordCode.DoesNotFit => words[
                "tide.DoesNotFit",
                text.Ppt(word.Number!.Value.Middle),
                word.Name ?? words["tide.theVessel"]
            ],
            TideWordCode.EndedGivenUp => GivenUp(record, word),
            TideWordCode.NowSalinity => word.Number is { } ppt
                ? words[
                    "tide.NowSalinity",
                    word.Name ?? "",
                    text.Ppt(ppt.Middle),
                    text.Ppt(ppt.Low),
                    text.Ppt(ppt.High)
                ]
                : words["tide.NowSalinity.unknown", word.Name ?? ""],
            TideWordCode.NowAlive => word.Name is { } where
                ? words["tide.NowAlive.in", where, text.Alive(word.Number, word.Rough)]
                : text.Alive(word.Number, word.Rough),
            TideWordCode.NowOfOtherRuns => words[
                "tide.NowOfOtherRuns",
                text.Number(word.Number!.Value),
                word.Name ?? words["tide.theVessel"]
            ],
            TideWordCode.NowStages => Joined(
                word.Stages.Select(stage => $"{stage.Stage.Name} {text.PerCent(stage.Share)} %")
            ),
            TideWordCode.NowEntries => words["tide.NowEntries", text.Whole(word.Number!.Value.Middle)],
            TideWordCode.BreachExpected => words[
                word.TooSalt ? "tide.BreachExpected.salt" : "tide.BreachExpected.fresh",
                word.Name ?? words["tide.theVessel"],
                text.Limit(word.LimitPpt ?? 0)
            ],
            TideWordCode.HatchExpected
            or TideWordCode.SettlementBeginsExpected
            or TideWordCode.SettlementHalfExpected
            or TideWordCode.SettlementEndsExpected
            or TideWordCode.ReturnExpected => words["tide." + word.Code, Days(record, word.Days!)],
            _ when word.Number is { } number => words["tide." + word.Code, text.Number(number)],
            _ => words["tide." + word.Code],
        };

    private string GivenUp(TideLineRecord record, TideWord word)
    {
        var ended = words[record.Crossings.Count > 0 ? "tide.EndedGivenUp.sea" : "tide.EndedGivenUp.fresh"];
        return word.Number is { High: > 0 } left
            ? words["tide.EndedGivenUp.left", ended, text.Bounds(left)]
            : ended;
    }

    private string Larvae(Interval? number) => number is { } some ? text.Larvae(some) : words["tide.larvae"];

    private string Days(TideLineRecord record, TideDays days) =>
        words[
            "tide.days",
            LongDay(record.Zone, days.Middle),
            LongDay(record.Zone, days.Early),
            LongDay(record.Zone, days.Late)
        ];
}
