using System.Globalization;

namespace Broodtide.Speed;

/// <summary>The most memory that a piece of work held beyond what stood before it, in MB; Linux alone tells.</summary>
internal static class PeakMemory
{
    private const string Refs = "/proc/self/clear_refs";
    private const string Status = "/proc/self/status";

    public static double Of(Action work)
    {
        // Aggressive: what is held and empty goes back to the system, or the work would find it and seem to need nothing.
        GC.Collect(GC.MaxGeneration, GCCollectionMode.Aggressive, blocking: true, compacting: true);
        if (!File.Exists(Refs))
        {
            work();
            return double.NaN;
        }

        // 5 sets the high mark back to what is held now.
        File.WriteAllText(Refs, "5");
        var before = Read("VmRSS:");
        work();
        return Math.Max(0, Read("VmHWM:") - before);
    }

    private static double Read(string name) =>
        double.Parse(
            File.ReadLines(Status)
                .First(line => line.StartsWith(name, StringComparison.Ordinal))
                .Split(' ', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries)[1],
            CultureInfo.InvariantCulture
        ) / 1024;
}
