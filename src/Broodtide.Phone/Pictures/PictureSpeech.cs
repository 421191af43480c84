using Broodtide.Phone.Language;
using Broodtide.Workbench.Feeding;
using Broodtide.Workbench.TideLine;

namespace Broodtide.Phone.Pictures;

/// <summary>The small pictures in one sentence or two, for those who do not see them.</summary>
internal sealed class PictureSpeech(Words words, PictureText text)
{
    public string Of(HatchNightsRecord record)
    {
        if (record.Nights.Count == 0)
        {
            return words["speech.nights.none"];
        }

        var nights = words[
            "speech.nights",
            string.Join(
                ", ",
                record.Nights.Select(night => $"{text.Date(night.Evening)} {text.PerCent(night.Chance)}")
            )
        ];
        return record.IsolateBy is { } date
            ? $"{nights} {words["speech.nights.isolate", text.Date(date)]}"
            : nights;
    }

    public string Of(IReadOnlyList<TideStage> names, IReadOnlyList<double> shares)
    {
        var told = names
            .Zip(shares)
            .Where(one => one.Second >= 0.005)
            .Select(one => words["speech.stage", one.First.Name, text.PerCent(one.Second)]);
        return words["speech.stages", string.Join(", ", told)];
    }

    public string Of(CultureRecord record)
    {
        var from = text.Day(record.Zone, record.From);
        if (record.Points.LastOrDefault(point => point.At <= record.Now) is not { Density.High: > 0 } now)
        {
            return words["speech.culture.none", record.VesselName];
        }

        string Said(double density) => text.Cells(density, record.IsFilm);
        List<string> told =
        [
            words[
                record.IsFilm ? "speech.film" : "speech.culture",
                record.VesselName,
                from,
                Said(now.Density.Middle),
                Said(now.Density.Low),
                Said(now.Density.High)
            ],
        ];
        if (
            record.Points.LastOrDefault(point => point.At > record.Now && point.At <= record.To) is
            { Density.High: > 0 } then
        )
        {
            told.Add(
                words[
                    "speech.culture.expected",
                    text.Day(record.Zone, then.At),
                    Said(then.Density.Middle),
                    Said(then.Density.Low),
                    Said(then.Density.High)
                ]
            );
        }

        return string.Join(" ", told);
    }

    public string Of(LedgerRecord record)
    {
        var from = text.Day(record.Zone, record.From);
        List<string> told =
        [
            TideTrack.At(record.Salinity, record.Now) is { } now
                ? words[
                    "speech.ledger.now",
                    record.VesselName,
                    from,
                    text.Ppt(now.Middle),
                    text.Ppt(now.Low),
                    text.Ppt(now.High)
                ]
                : words["speech.ledger", record.VesselName, from],
        ];
        if (record.Salinity is [.., var last] && last.At > record.Now)
        {
            told.Add(
                words[
                    "speech.ledger.expected",
                    text.Day(record.Zone, last.At),
                    text.Ppt(last.Value.Middle),
                    text.Ppt(last.Value.Low),
                    text.Ppt(last.Value.High)
                ]
            );
        }

        if (record.NotSaltierThanPpt is { } salty)
        {
            told.Add(words["speech.ledger.limit", text.NotSaltierThan(salty)]);
        }

        if (record.NotFresherThanPpt is { } fresh)
        {
            told.Add(words["speech.ledger.limit", text.NotFresherThan(fresh)]);
        }

        var topUps = record
            .TopUps.Where(one => one.At >= record.From && one.At <= record.Now)
            .Select(one => text.Day(record.Zone, one.At))
            .ToList();
        if (topUps.Count > 0)
        {
            told.Add(words["speech.ledger.topUps", string.Join(", ", topUps)]);
        }

        told.AddRange(
            record
                .Readings.Where(one => !one.Fits && one.At >= record.From)
                .Select(reading =>
                    words[
                        "speech.ledger.misfit",
                        text.Day(record.Zone, reading.At),
                        text.Ppt(reading.Ppt.Middle)
                    ]
                )
        );
        return string.Join(" ", told);
    }

    public string Of(CrossingStairRecord record)
    {
        var steps = record.Steps.Select(
            (step, index) =>
                words["speech.stair.step", text.Limit(Math.Round(step.Ppt.Middle, 1)), text.Whole(index + 1)]
        );
        var done = record.NowMinute is { } now ? record.Steps.Count(step => step.AtMinute <= now) : 0;
        var standing =
            record.NowMinute is null ? words["speech.stair.notBegun"]
            : done == 0 ? words["speech.stair.before"]
            : words["speech.stair.after", text.Whole(done)];
        return words["speech.stair", string.Join(", ", steps), standing];
    }
}
