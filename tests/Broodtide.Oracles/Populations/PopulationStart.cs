using Broodtide.Units;

namespace Broodtide.Oracles.Populations;

/// <summary>What is known of the number alive before the first step.</summary>
public abstract record PopulationStart
{
    private PopulationStart() { }

    /// <summary>Probability of each number from 0 to the largest.</summary>
    /// <exception cref="ArgumentOutOfRangeException">More than a billionth lies above the largest.</exception>
    public double[] Probabilities(int largest)
    {
        var probabilities = Enumerable.Range(0, largest + 1).Select(n => Math.Exp(Log(n))).ToArray();
        return probabilities.Sum() > 1 - 1e-9
            ? probabilities
            : throw new ArgumentOutOfRangeException(
                nameof(largest),
                largest,
                "The largest number leaves out part of the start."
            );
    }

    private protected abstract double Log(int number);

    /// <summary>A known number.</summary>
    public sealed record Known(int Number) : PopulationStart
    {
        public int Number { get; } = Whole.Within(Number, 0, int.MaxValue);

        private protected override double Log(int number) => number == Number ? 0 : double.NegativeInfinity;
    }

    /// <summary>Poisson.</summary>
    public sealed record Scattered(double Mean) : PopulationStart
    {
        public double Mean { get; } = Finite.Positive(Mean);

        private protected override double Log(int number) => Laws.LogPoisson(number, Mean);
    }

    /// <summary>Negative binomial.</summary>
    public sealed record Clumped(double Mean, double Size) : PopulationStart
    {
        public double Mean { get; } = Finite.Positive(Mean);
        public double Size { get; } = Finite.Positive(Size);

        private protected override double Log(int number) => Laws.LogNegativeBinomial(number, Mean, Size);
    }
}
