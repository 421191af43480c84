using System.Globalization;
using System.Runtime.InteropServices;

namespace Broodtide.Benchmarks;

/// <summary>What the figures were measured on.</summary>
internal static class Machine
{
    public static string Describe()
    {
        var load = File.Exists("/proc/loadavg")
            ? File.ReadAllText("/proc/loadavg").Split(' ')[0]
            : "not known";
        var processor = File.Exists("/proc/cpuinfo")
            ? File.ReadLines("/proc/cpuinfo")
                .FirstOrDefault(line => line.StartsWith("model name", StringComparison.Ordinal))
                ?.Split(':')[1]
                .Trim()
            : null;
        return string.Create(
            CultureInfo.InvariantCulture,
            $"machine: {processor ?? "not known"}, {Environment.ProcessorCount} cores, {RuntimeInformation.OSDescription}, {RuntimeInformation.FrameworkDescription}, load before the start {load}"
        );
    }
}
