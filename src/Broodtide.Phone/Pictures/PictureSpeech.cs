using System.Text;
using Broodtide.Workbench.TideLine;

namespace Broodtide.Phone.Pictures;

/// <summary>The small pictures in one sentence or two, for those who do not see them.</summary>
public static class PictureSpeech
{
    public static string Of(HatchNightsRecord record)
    {
        if (record.Nights.Count == 0)
        {
            return "No forecast of hatching yet.";
        }

        var nights = string.Join(
            ", ",
            record.Nights.Select(night =>
                $"{PictureText.Date(night.Evening)} {PictureText.PerCent(night.Chance)}"
            )
        );
        var isolate = record.IsolateBy is { } date
            ? $" Isolate by the evening of {PictureText.Date(date)}."
            : "";
        return $"Chance of hatching each night, in per cent: {nights}.{isolate}";
    }

    public static string Of(IReadOnlyList<TideStage> names, IReadOnlyList<double> shares)
    {
        var told = names
            .Zip(shares)
            .Where(one => one.Second >= 0.005)
            .Select(one => $"{one.First.Name} {PictureText.PerCent(one.Second)} per cent");
        return $"Stages now: {string.Join(", ", told)}.";
    }

    public static string Of(LedgerRecord record)
    {
        var text = new StringBuilder(
            $"Salinity of {record.VesselName} from {PictureText.Day(record.Zone, record.From)}"
        );
        if (TideTrack.At(record.Salinity, record.Now) is { } now)
        {
            text.Append(
                $": now {PictureText.Ppt(now.Middle)} ppt, {PictureText.Ppt(now.Low)} to {PictureText.Ppt(now.High)}"
            );
        }

        text.Append('.');
        if (record.Salinity is [.., var last] && last.At > record.Now)
        {
            text.Append(
                $" Expected on {PictureText.Day(record.Zone, last.At)}: {PictureText.Ppt(last.Value.Middle)} ppt, {PictureText.Ppt(last.Value.Low)} to {PictureText.Ppt(last.Value.High)}."
            );
        }

        if (record.NotSaltierThanPpt is { } salty)
        {
            text.Append($" It should be {PictureText.NotSaltierThan(salty)}.");
        }

        if (record.NotFresherThanPpt is { } fresh)
        {
            text.Append($" It should be {PictureText.NotFresherThan(fresh)}.");
        }

        var topUps = record.TopUps.Where(one => one.At >= record.From && one.At <= record.Now).ToList();
        if (topUps.Count > 0)
        {
            text.Append(
                $" Topped up {string.Join(", ", topUps.Select(one => PictureText.Day(record.Zone, one.At)))}."
            );
        }

        foreach (var reading in record.Readings.Where(one => !one.Fits && one.At >= record.From))
        {
            text.Append(
                $" The reading of {PictureText.Day(record.Zone, reading.At)}, {PictureText.Ppt(reading.Ppt.Middle)} ppt, does not fit."
            );
        }

        return text.ToString();
    }

    public static string Of(CrossingStairRecord record)
    {
        var steps = record.Steps.Select(
            (step, index) =>
                $"{PictureText.Limit(Math.Round(step.Ppt.Middle, 1))} ppt after step {PictureText.Whole(index + 1)}"
        );
        var done = record.NowMinute is { } now ? record.Steps.Count(step => step.AtMinute <= now) : 0;
        var standing =
            record.NowMinute is null ? "Not begun."
            : done == 0 ? "Before step 1."
            : $"Now after step {PictureText.Whole(done)}.";
        return $"Stair of the crossing: {string.Join(", ", steps)}. {standing}";
    }
}
