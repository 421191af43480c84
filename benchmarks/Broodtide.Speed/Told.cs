using System.Globalization;

namespace Broodtide.Speed;

/// <summary>What is printed.</summary>
internal static class Told
{
    public static void Line(string text) => Console.WriteLine(text);

    public static void Title(string text)
    {
        Console.WriteLine();
        Console.WriteLine($"{text}   [load {Load()}]");
    }

    public static string Load() =>
        File.Exists("/proc/loadavg") ? File.ReadAllText("/proc/loadavg").Split(' ')[0] : "not known";

    public static double Median(IEnumerable<double> values)
    {
        var sorted = values.Order().ToList();
        return sorted.Count % 2 == 1
            ? sorted[sorted.Count / 2]
            : (sorted[(sorted.Count / 2) - 1] + sorted[sorted.Count / 2]) / 2;
    }

    /// <summary>Least squares slope of log time by log size: 1 is linear.</summary>
    public static double Exponent(IReadOnlyList<(double Size, double Time)> points)
    {
        var (x, y) = (points.Average(p => Math.Log(p.Size)), points.Average(p => Math.Log(p.Time)));
        return points.Sum(p => (Math.Log(p.Size) - x) * (Math.Log(p.Time) - y))
            / points.Sum(p => (Math.Log(p.Size) - x) * (Math.Log(p.Size) - x));
    }

    public static string Number(double value, string format) =>
        value.ToString(format, CultureInfo.InvariantCulture);
}
