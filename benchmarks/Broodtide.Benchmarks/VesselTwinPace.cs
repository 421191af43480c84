using System.Globalization;
using BenchmarkDotNet.Attributes;
using BenchmarkDotNet.Configs;
using BenchmarkDotNet.Jobs;
using BenchmarkDotNet.Running;
using BenchmarkDotNet.Toolchains.InProcess.Emit;
using Broodtide.Science.Estimation.Vessels;
using Broodtide.Units;

namespace Broodtide.Benchmarks;

/// <summary>How long the twin of a vessel takes: 60 days of 200 members on one thread, and one reading.</summary>
[MemoryDiagnoser]
public class VesselTwinPace
{
    private const int Days = 60;

    private VesselScene _scene = null!;
    private VesselEnsemble _start = null!;
    private VesselEnsemble _later = null!;
    private VesselReading _reading = null!;

    /// <summary>Processor time first, which other work beside it disturbs least; then wall time by BenchmarkDotNet.</summary>
    public static void Run()
    {
        var pace = new VesselTwinPace();
        pace.Prepare();
        Print("60 days of 200 members", pace.SixtyDays);
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
        List<VesselEvent> events = [new VesselEvent.AlgaeGiven(8, 6000 * 5e4)];
        for (var day = 1; day < Days; day++)
        {
            events.Add(new VesselEvent.Fed((24 * day) + 18, Mass.FromMilligrams(6), FeedComposition.Yeast));
            if (day % 7 == 0)
            {
                var changed = Volume.FromLitres(1.5);
                events.Add(
                    new VesselEvent.WaterMoved((24 * day) + 10, changed, changed, IncomingWater.Clean)
                );
            }
        }

        _scene = new()
        {
            Site = new() { FilterSquareCentimetres = 300 },
            WaterAtStart = Volume.FromLitres(6),
            Events = [.. events],
            Hours =
            [
                .. Enumerable
                    .Range(0, 24 * Days)
                    .Select(hour => new VesselHour
                    {
                        Water = Volume.FromLitres(6),
                        Salinity = Salinity.FromPractical(30),
                        Temperature = Temperature.FromCelsius(25 + Math.Sin(hour / 24.0 * 2 * Math.PI)),
                        LightMicromoles = hour % 24 is >= 7 and < 21 ? 100 : 0,
                        Larvae = Interval.FromPoints(100, 140, 180),
                        LarvaDryMicrograms = 40,
                    }),
            ],
        };
        _start = VesselEnsemble.Draw(_scene, new(), VesselPriors.Usual, 200);
        _later = VesselTwin.Forward(_start, _scene, 500).End;
        _reading = VesselReading.Measured.AtHome(500, VesselQuantity.Tan, 0.2);
    }

    /// <summary>60 days of 200 members, all hours kept.</summary>
    [Benchmark]
    public double SixtyDays() =>
        VesselTwin.Forward(_start, _scene, 24 * Days).Traces.Value(VesselQuantity.Tan, 24 * Days, 0);

    /// <summary>One reading taken in.</summary>
    [Benchmark]
    public double OneReading() => VesselUpdating.With(_later, _reading, _scene).Tail.Value;

    /// <summary>200 members drawn.</summary>
    [Benchmark]
    public int Draw() => VesselEnsemble.Draw(_scene, new(), VesselPriors.Usual, 200).Members;

    /// <summary>One reading taken in, and the next 48 hours run.</summary>
    [Benchmark]
    public double OneReadingAndTwoDays()
    {
        var members = VesselUpdating.With(_later, _reading, _scene).Members;
        return VesselTwin.Forward(members, _scene, 48).Traces.Quantiles(VesselQuantity.Oxygen, 48).Low;
    }
}
