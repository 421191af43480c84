using System.Diagnostics;

namespace Broodtide.Benchmarks;

/// <summary>A stop watch for stages that follow each other.</summary>
internal sealed class Laps
{
    private readonly TimeSpan _processorAtStart = Environment.CpuUsage.TotalTime;
    private long _last = Stopwatch.GetTimestamp();

    /// <summary>Processor time since the start, on all cores, in milliseconds.</summary>
    public double Processor => (Environment.CpuUsage.TotalTime - _processorAtStart).TotalMilliseconds;

    /// <summary>Milliseconds since the last stage ended.</summary>
    public double Next()
    {
        var now = Stopwatch.GetTimestamp();
        var passed = Stopwatch.GetElapsedTime(_last, now).TotalMilliseconds;
        _last = now;
        return passed;
    }
}
