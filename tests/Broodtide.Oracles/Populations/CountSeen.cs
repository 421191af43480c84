using Broodtide.Units;
using MathNet.Numerics;

namespace Broodtide.Oracles.Populations;

/// <summary>A count, as the likelihood of a number seen given the number alive.</summary>
public abstract record CountSeen
{
    private CountSeen(int seen) => Seen = Whole.Within(seen, 0, int.MaxValue);

    /// <summary>Number seen.</summary>
    public int Seen { get; }

    /// <summary>Natural logarithm of the chance to see this number of so many; minus infinity if impossible.</summary>
    public abstract double LogLikelihood(int alive);

    /// <summary>Each is seen with the same chance, by itself.</summary>
    public sealed record Detected(int Seen, double Chance) : CountSeen(Seen)
    {
        public double Chance { get; } = Finite.Within(Chance, 0, 1);

        public override double LogLikelihood(int alive) => Laws.LogBinomial(Seen, alive, Chance);
    }

    /// <summary>Poisson with a mean that grows with the number alive.</summary>
    public sealed record Scattered(int Seen, double MeanEach) : CountSeen(Seen)
    {
        public double MeanEach { get; } = Finite.Positive(MeanEach);

        public override double LogLikelihood(int alive) => Laws.LogPoisson(Seen, MeanEach * alive);
    }

    /// <summary>Negative binomial with that mean and a size that tells of clumping.</summary>
    public sealed record Clumped(int Seen, double MeanEach, double Size) : CountSeen(Seen)
    {
        public double MeanEach { get; } = Finite.Positive(MeanEach);
        public double Size { get; } = Finite.Positive(Size);

        public override double LogLikelihood(int alive) =>
            Laws.LogNegativeBinomial(Seen, MeanEach * alive, Size);
    }

    /// <summary>Beta-binomial: a chance of detection that is known as a beta.</summary>
    public sealed record Photographed(int Seen, double Found, double Missed) : CountSeen(Seen)
    {
        public double Found { get; } = Finite.Positive(Found);
        public double Missed { get; } = Finite.Positive(Missed);

        public override double LogLikelihood(int alive) =>
            Seen > alive
                ? double.NegativeInfinity
                : SpecialFunctions.BinomialLn(alive, Seen)
                    + SpecialFunctions.BetaLn(Found + Seen, Missed + alive - Seen)
                    - SpecialFunctions.BetaLn(Found, Missed);
    }

    /// <summary>A full count trusted to the last one.</summary>
    public sealed record Exact(int Seen) : CountSeen(Seen)
    {
        public override double LogLikelihood(int alive) => alive == Seen ? 0 : double.NegativeInfinity;
    }
}
