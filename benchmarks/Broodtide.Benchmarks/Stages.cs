using System.Globalization;

namespace Broodtide.Benchmarks;

/// <summary>How long each stage from the bytes on the disk to the views took, in milliseconds.</summary>
/// <param name="Read">Bytes to entries.</param>
/// <param name="Tell">Entries to account.</param>
/// <param name="Index">Index by subject, which decodes every fact.</param>
/// <param name="Views">Every view.</param>
/// <param name="Processor">Processor time of all of it, on all cores: says more where other work runs beside.</param>
internal readonly record struct Stages(double Read, double Tell, double Index, double Views, double Processor)
{
    public double Whole => Read + Tell + Index + Views;

    public static void Print(string title, IReadOnlyList<Stages> runs)
    {
        var whole = runs.Select(run => run.Whole).Order().ToList();
        Console.WriteLine(
            string.Create(
                CultureInfo.InvariantCulture,
                $"{title}: median {Median(whole):F0} ms of {runs.Count} (best {whole[0]:F0}, worst {whole[^1]:F0}); "
                    + $"bytes to entries {Median(runs.Select(r => r.Read)):F0}, entries to account {Median(runs.Select(r => r.Tell)):F0}, "
                    + $"index by subject {Median(runs.Select(r => r.Index)):F0}, every view {Median(runs.Select(r => r.Views)):F0}; "
                    + $"processor time {Median(runs.Select(r => r.Processor)):F0} (best {runs.Min(r => r.Processor):F0})"
            )
        );
    }

    public static double Median(IEnumerable<double> values)
    {
        var sorted = values.Order().ToList();
        return sorted.Count % 2 == 1
            ? sorted[sorted.Count / 2]
            : (sorted[(sorted.Count / 2) - 1] + sorted[sorted.Count / 2]) / 2;
    }
}
