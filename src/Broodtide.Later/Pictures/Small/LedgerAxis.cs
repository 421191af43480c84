using Broodtide.Workbench.TideLine;
using NodaTime;

namespace Broodtide.Phone.Pictures;

/// <summary>Salinity downward, days across; the range holds all that is shown, and a limit when it is near.</summary>
internal sealed class LedgerAxis
{
    private const double Top = LedgerLayout.Top;
    private const double Floor = LedgerLayout.Floor;
    private const double Margin = 0.12;

    private readonly LedgerRecord _record;

    public LedgerAxis(LedgerRecord record, double width)
    {
        _record = record;
        Width = width;
        var values = record
            .Salinity.Where(row => row.At >= record.From && row.At <= record.To)
            .Select(row => row.Value)
            .Concat(
                record
                    .Readings.Where(one => one.At >= record.From && one.At <= record.To)
                    .Select(one => one.Ppt)
            )
            .ToList();
        if (TideTrack.At(record.Salinity, record.Now) is { } now)
        {
            values.Add(now);
        }

        var least = values.Select(value => value.Low).DefaultIfEmpty(record.NotFresherThanPpt ?? 25).Min();
        var most = values.Select(value => value.High).DefaultIfEmpty(record.NotSaltierThanPpt ?? 34).Max();
        var span = Math.Max(2, most - least);
        if (record.NotSaltierThanPpt is { } salty && salty > most - span && salty - most < span)
        {
            most = Math.Max(most, salty + (span * Margin));
        }

        if (record.NotFresherThanPpt is { } fresh && fresh < least + span && least - fresh < span / 2)
        {
            least = Math.Min(least, fresh - (span * Margin));
        }

        span = Math.Max(2, most - least);
        var middle = (most + least) / 2;
        Least = middle - (span * (0.5 + Margin));
        Most = middle + (span * (0.5 + Margin));
        Tick = (Most - Least) switch
        {
            < 3 => 0.5,
            < 9 => 1,
            < 18 => 2,
            _ => 5,
        };
    }

    public double Width { get; }
    public double Least { get; }
    public double Most { get; }
    public double Tick { get; }
    public double NowX => Math.Clamp(X(_record.Now), 0, Width);

    public double X(Instant at) =>
        Math.Clamp((at - _record.From).TotalDays / (_record.To - _record.From).TotalDays, 0, 1) * Width;

    public double Y(double ppt) =>
        Math.Clamp(Top + ((ppt - Least) / (Most - Least) * (Floor - Top)), Top - 1, Floor + 1);
}
