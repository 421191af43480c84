namespace Broodtide.Science.Estimation.Larvae;

/// <summary>One point of the unknowns of a run: what it supposes of hazards, development and counts.</summary>
internal sealed class LarvalPoint
{
    /// <summary>Number of unknowns before the detection classes.</summary>
    internal const int PlainUnknowns = 10;

    /// <summary>Place of the development requirement among the unknowns.</summary>
    internal const int DevelopmentPlace = 2;

    private LarvalPoint(LarvalPriors priors, ReadOnlySpan<double> z)
    {
        BaseHazard = priors.BaseHazardPerDay.At(z[0]);
        Early = priors.EarlyMultiplier.At(z[1]);
        Development = priors.DevelopmentDays.At(z[DevelopmentPlace]);
        Cv = Math.Min(0.6, priors.DevelopmentCv.At(z[3]));
        Clumping = priors.Clumping.At(z[4]);
        MetamorphosisLoss = priors.MetamorphosisLoss.At(z[5]);
        BadDays = Math.Min(0.5, priors.BadDays.At(z[6]));
        ArrivalErrorFactor = priors.ArrivalErrorFactor.At(z[7]);
        FutureWarmth = priors.FutureTemperatureSdKelvin * z[8];
        StageBend = priors.StageBend.At(z[9]);
        Detection = new double[priors.Detection.Count];
        for (var i = 0; i < Detection.Length; i++)
        {
            Detection[i] = priors.Detection[i].At(z[PlainUnknowns + i]);
        }
    }

    internal double BaseHazard { get; }

    internal double Early { get; }

    internal double Development { get; }

    internal double Cv { get; }

    internal double Clumping { get; }

    internal double MetamorphosisLoss { get; }

    internal double BadDays { get; }

    internal double ArrivalErrorFactor { get; }

    internal double FutureWarmth { get; }

    internal double StageBend { get; }

    internal double[] Detection { get; }

    internal static LarvalPoint At(LarvalPriors priors, ReadOnlySpan<double> z) => new(priors, z);
}
