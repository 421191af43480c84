using System.Globalization;
using BenchmarkDotNet.Attributes;
using BenchmarkDotNet.Configs;
using BenchmarkDotNet.Jobs;
using BenchmarkDotNet.Running;
using BenchmarkDotNet.Toolchains.InProcess.Emit;
using Broodtide.Science.Estimation.Vessels;
using Broodtide.Workbench.Demo;

namespace Broodtide.Benchmarks;

/// <summary>How long the twin of a vessel takes: 60 days of 200 members on one thread, and one reading.</summary>
[MemoryDiagnoser]
public class VesselTwinPace
{
    private VesselScene _scene = null!;
    private VesselEnsemble _start = null!;
    private VesselEnsemble _later = null!;
    private VesselReading _reading = null!;

    /// <summary>Processor time first, which other work beside it disturbs least; then wall time by BenchmarkDotNet.</summary>
    public static void Run()
    {
        var pace = new VesselTwinPace();
        pace.Prepare();
        Console.WriteLine(
            string.Create(
                CultureInfo.InvariantCulture,
                $"answer {SixtyDays.AnswerOf(SixtyDays.Steps(pace._scene).Last()):R}, {System.Numerics.Vector<double>.Count} lanes"
            )
        );
        Print("60 days of 200 members", pace.Whole);
        Print("one reading", pace.OneReading);
        Print("one reading and 48 hours", pace.OneReadingAndTwoDays);
        BenchmarkRunner.Run<VesselTwinPace>(
            ManualConfig
                .Create(DefaultConfig.Instance)
                .AddJob(Job.ShortRun.WithToolchain(InProcessEmitToolchain.Instance))
        );
    }

    private static void Print(string title, Func<double> work)
    {
        const int times = 60;
        for (var i = 0; i < 40; i++)
        {
            work();
        }

        var milliseconds = new List<double>(times);
        for (var i = 0; i < times; i++)
        {
            var before = Environment.CpuUsage.TotalTime;
            work();
            milliseconds.Add((Environment.CpuUsage.TotalTime - before).TotalMilliseconds);
        }

        milliseconds.Sort();
        Console.WriteLine(
            string.Create(
                CultureInfo.InvariantCulture,
                $"{title}: processor time, median {milliseconds[times / 2]:F2} ms, best {milliseconds[0]:F2}"
            )
        );
    }

    [GlobalSetup]
    public void Prepare()
    {
        _scene = SixtyDays.Scene();
        _start = SixtyDays.Start(_scene);
        _later = VesselTwin.Forward(_start, _scene, 500).End;
        _reading = VesselReading.Measured.AtHome(500, VesselQuantity.Tan, 0.2);
    }

    /// <summary>60 days of 200 members, all hours kept.</summary>
    [Benchmark]
    public double Whole() =>
        VesselTwin
            .Forward(_start, _scene, 24 * SixtyDays.Days)
            .Traces.Value(VesselQuantity.Tan, 24 * SixtyDays.Days, 0);

    /// <summary>One reading taken in.</summary>
    [Benchmark]
    public double OneReading() => VesselUpdating.With(_later, _reading, _scene).Tail.Value;

    /// <summary>200 members drawn.</summary>
    [Benchmark]
    public int Draw() => SixtyDays.Start(_scene).Members;

    /// <summary>One reading taken in, and the next 48 hours run.</summary>
    [Benchmark]
    public double OneReadingAndTwoDays()
    {
        var members = VesselUpdating.With(_later, _reading, _scene).Members;
        return VesselTwin.Forward(members, _scene, 48).Traces.Quantiles(VesselQuantity.Oxygen, 48).Low;
    }
}
