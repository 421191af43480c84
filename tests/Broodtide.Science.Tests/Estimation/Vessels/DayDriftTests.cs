using Broodtide.Science.Estimation.Vessels;
using static Broodtide.Science.Estimation.Vessels.VesselParameter;

namespace Broodtide.Science.Tests.Estimation.Vessels;

/// <summary>Rates wander from day to day, as a first-order autoregression does (Box and Jenkins, any edition).</summary>
public sealed class DayDriftTests
{
    private const int Days = 40;

    private static readonly VesselEnsemble[] Mornings = Run(VesselPriors.Usual, 400);

    [Theory]
    [InlineData(DecayPerDay)]
    [InlineData(AlgalGrowthPerDay)]
    [InlineData(OxygenHaste)]
    public void Without_readings_the_spread_and_the_middle_of_a_rate_stay_what_was_believed(
        VesselParameter rate
    )
    {
        var logs = Logs(Mornings[Days], rate);
        var prior = VesselPriors.Usual[rate];

        Assert.Equal(Math.Log(prior.Median), logs.Average(), 3 * prior.LogSd / Math.Sqrt(400));
        Assert.Equal(1, Sd(logs) / prior.LogSd, 0.15);
    }

    [Fact]
    public void What_a_rate_tells_of_later_days_fades_to_a_third_in_its_memory()
    {
        var memory = VesselPriors.Usual[DecayPerDay].MemoryDays!.Value;
        var (then, later) = (
            Logs(Mornings[1], DecayPerDay),
            Logs(Mornings[1 + (int)Math.Round(memory)], DecayPerDay)
        );

        // The error of a correlation of 400 is a twentieth.
        Assert.Equal(Math.Exp(-1), Correlation(then, later), 0.12);
        Assert.True(Correlation(then, Logs(Mornings[2], DecayPerDay)) > 0.85);
    }

    [Fact]
    public void What_is_no_rate_and_what_is_switched_off_stay()
    {
        var off = new VesselPrior(FilmGrowthPerDay, 0, 0, 0, 1, PriorFooting.Practice, "off");
        var end = Run(VesselPriors.Usual.With(off), 16)[3];
        var start = Run(VesselPriors.Usual.With(off), 16)[0];

        Assert.Equal(Values(start, CellNitrogenPicograms), Values(end, CellNitrogenPicograms));
        Assert.NotEqual(Values(start, DecayPerDay), Values(end, DecayPerDay));
        Assert.All(Values(end, FilmGrowthPerDay), value => Assert.Equal(0, value));
    }

    [Theory]
    [InlineData(0)]
    [InlineData(-1)]
    [InlineData(double.NaN)]
    public void A_memory_of_no_time_is_refused(double days) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => VesselPriors.Usual[DecayPerDay].Wandering(days));

    [Fact]
    public void The_error_of_a_number_of_larvae_does_not_wander() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => VesselPriors.Usual[LarvaeError].Wandering(5));

    private static VesselEnsemble[] Run(VesselPriors priors, int members)
    {
        var scene = Scenes.Days(Days);
        var now = VesselEnsemble.Draw(scene, new VesselStart(), priors, members);
        var mornings = new List<VesselEnsemble> { now };
        for (var day = 0; day < Days; day++)
        {
            mornings.Add(VesselTwin.Forward(mornings[^1], scene, 24).End);
        }

        return [.. mornings];
    }

    private static double[] Values(VesselEnsemble of, VesselParameter parameter)
    {
        var values = new double[of.Members];
        of.Read(parameter, values);
        return values;
    }

    private static double[] Logs(VesselEnsemble of, VesselParameter parameter) =>
        [.. Values(of, parameter).Select(value => Math.Log(value))];

    private static double Sd(double[] values)
    {
        var mean = values.Average();
        return Math.Sqrt(values.Average(value => (value - mean) * (value - mean)));
    }

    private static double Correlation(double[] one, double[] other)
    {
        var (a, b) = (one.Average(), other.Average());
        return one.Zip(other, (x, y) => (x - a) * (y - b)).Average() / (Sd(one) * Sd(other));
    }
}
