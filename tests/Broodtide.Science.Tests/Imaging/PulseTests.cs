using Broodtide.Science.Imaging;
using Broodtide.Science.Imaging.Pulses;
using MathNet.Numerics.Distributions;

namespace Broodtide.Science.Tests.Imaging;

public sealed class PulseTests
{
    [Theory]
    [InlineData(180, 30, 10)]
    [InlineData(260, 30, 12)]
    [InlineData(75, 15, 16)]
    public void The_rate_of_an_invented_beat_comes_back(
        double perMinute,
        double framesPerSecond,
        double lasts
    )
    {
        var (seconds, brightness) = Clip(perMinute, framesPerSecond, lasts, 4, 3, 1);
        var found = Pulse.Of(seconds, brightness).Value;
        Assert.Equal(perMinute, found.BeatsPerMinute.Middle, 0.02 * perMinute);
        Assert.InRange(found.ShareExplained, 0.2, 0.9);
    }

    [Fact]
    public void Times_need_not_be_even_and_the_light_may_drift()
    {
        var dice = new Random(3);
        var seconds = Enumerable
            .Range(0, 300)
            .Select(at => (at / 30.0) + (0.012 * dice.NextDouble()))
            .ToList();
        var brightness = seconds.ConvertAll(t =>
            90 + (2.5 * t) + (5 * Math.Sin(2 * Math.PI * 3.4 * t)) + Normal.Sample(dice, 0, 3)
        );
        Assert.Equal(204, Pulse.Of(seconds, brightness).Value.BeatsPerMinute.Middle, 3.0);
    }

    // Of 150 clips of a steady beat nine in ten intervals hold; more do, because half of what the halves differ by is added.
    [Fact]
    public void Intervals_hold()
    {
        var held = 0;
        for (var clip = 0; clip < 150; clip++)
        {
            var perMinute = 100 + (clip % 50 * 6);
            var (seconds, brightness) = Clip(perMinute, 30, 10, 3, 3, 100 + clip);
            var found = Pulse.Of(seconds, brightness);
            held += found.Succeeded && found.Value.BeatsPerMinute.Contains(perMinute) ? 1 : 0;
        }

        Assert.InRange(held, 128, 150);
    }

    // One in ten thousand is the chance that is allowed; both halves have to agree as well.
    [Theory]
    [InlineData(0)]
    [InlineData(0.8)]
    public void Noise_alone_has_no_pulse(double carried)
    {
        var alarms = 0;
        for (var clip = 0; clip < 200; clip++)
        {
            var dice = new Random(clip);
            var (noise, brightness) = (0.0, new List<double>());
            for (var i = 0; i < 300; i++)
            {
                noise = (carried * noise) + Normal.Sample(dice, 0, 2);
                brightness.Add(100 + noise);
            }

            alarms += Pulse.Of([.. Enumerable.Range(0, 300).Select(at => at / 30.0)], brightness).Succeeded
                ? 1
                : 0;
        }

        Assert.InRange(alarms, 0, 3);
    }

    [Fact]
    public void A_beat_that_changes_its_rate_halfway_is_refused_and_so_is_a_short_clip()
    {
        var seconds = Enumerable.Range(0, 360).Select(at => at / 30.0).ToList();
        var broken = seconds.ConvertAll(t => 100 + (5 * Math.Sin(2 * Math.PI * (t < 6 ? 2.5 : 5) * t)));
        Assert.Equal("pulse-none-found", Pulse.Of(seconds, broken).Reason!.Code);
        Assert.Equal("pulse-clip-too-short", Pulse.Of(seconds[..200], broken[..200]).Reason!.Code);
        Assert.Equal("pulse-frames-too-few", Pulse.Of(seconds[..50], broken[..50]).Reason!.Code);
        Assert.Equal("pulse-none-found", Pulse.Of(seconds, [.. seconds.Select(_ => 7.0)]).Reason!.Code);
        Assert.Throws<ArgumentException>(() => Pulse.Of([1, 1], [2, 2]));
    }

    [Fact]
    public void A_beat_near_half_the_frame_rate_says_that_a_faster_one_would_look_the_same()
    {
        var (seconds, brightness) = Clip(400, 15, 12, 5, 1, 2);
        Assert.Contains(
            Pulse.Of(seconds, brightness).Value.Remarks,
            it => it.Code == "pulse-near-half-frame-rate"
        );
    }

    [Fact]
    public void The_brightness_of_a_spot_is_the_mean_of_its_disc()
    {
        var shape = new GridShape(5, 4);
        var grey = Enumerable.Range(0, 20).Select(at => (float)at).ToArray();
        Assert.Equal(7, Pulse.Brightness(grey, shape, (2, 1), 1)!.Value, 1e-9);
        Assert.Equal((0 + 1 + 5) / 3.0, Pulse.Brightness(grey, shape, (0, 0), 1)!.Value, 1e-9);
        Assert.Null(Pulse.Brightness(grey, shape, (-9, 2), 1));
    }

    [Fact]
    public void The_share_that_swims_has_bounds_from_chance_and_from_counting()
    {
        var half = Swimming.Share(10, 20).Value;
        Assert.Equal(50, half.Middle, 1e-9);
        // Chance alone: log-odds of 10.5 to 10.5 have a standard deviation of the root of 2/10.5.
        Assert.True(half.High > 100 / (1 + Math.Exp(-1.645 * Math.Sqrt(2 / 10.5))));
        Assert.InRange(Swimming.Share(0, 30).Value.High, 1, 30);
        Assert.InRange(Swimming.Share(30, 30).Value.Low, 40, 99);
        Assert.Equal("swimming-more-than-seen", Swimming.Share(40, 20).Reason!.Code);
    }

    private static (List<double> Seconds, List<double> Brightness) Clip(
        double perMinute,
        double framesPerSecond,
        double lasts,
        double height,
        double noise,
        int seed
    )
    {
        var dice = new Random(seed);
        var seconds = Enumerable
            .Range(0, (int)(lasts * framesPerSecond))
            .Select(at => at / framesPerSecond)
            .ToList();
        return (
            seconds,
            seconds.ConvertAll(t =>
                120
                + (height * Math.Sin((2 * Math.PI * perMinute / 60 * t) + seed))
                + Normal.Sample(dice, 0, noise)
            )
        );
    }
}
