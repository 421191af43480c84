using Broodtide.Oracles;
using Broodtide.Oracles.Chains;

namespace Broodtide.Checks.Quantities;

/// <summary>Hidden Markov models.</summary>
internal static class HiddenChainQuantities
{
    private const string BinaryKeys = "prior, transition, p_seen, seen";
    private const string PoissonKeys = "data, column, lambda, transition, start";

    public static IReadOnlyList<Quantity> All { get; } =
    [
        Quantity.Of(
            "hmm.binary.filter",
            $"{BinaryKeys}, t, state",
            inputs => At(Binary(inputs).Filter().States, inputs)
        ),
        Quantity.Of("hmm.binary.loglik", BinaryKeys, inputs => Binary(inputs).Filter().LogLikelihood),
        Quantity.Of(
            "hmm.binary.smooth",
            $"{BinaryKeys}, t, state",
            inputs => At(Binary(inputs).Smooth(), inputs)
        ),
        Quantity.WithData(
            "hmm.poisson_fit.negloglik",
            "data, column, states, (start)",
            (inputs, surroundings) => [-Fit(inputs, surroundings).LogLikelihood]
        ),
        Quantity.WithData(
            "hmm.poisson_fit.lambda",
            "data, column, states, start, state",
            (inputs, surroundings) =>
            {
                var means = Fit(inputs, surroundings).Chain.Means;
                return [means[inputs.Place("state", means.Count)]];
            }
        ),
        Quantity.WithData(
            "hmm.poisson.loglik",
            PoissonKeys,
            (inputs, surroundings) => [Poisson(inputs, surroundings).Filter().LogLikelihood]
        ),
        Quantity.WithData(
            "hmm.poisson.filter",
            $"{PoissonKeys}, t, state",
            (inputs, surroundings) => [At(Poisson(inputs, surroundings).Filter().States, inputs)]
        ),
    ];

    private static double At(IReadOnlyList<double[]> states, CheckInputs inputs) =>
        states[inputs.Place("t", states.Count)][inputs.Place("state", states[0].Length)];

    private static HiddenChain Binary(CheckInputs inputs)
    {
        var prior = inputs.Numbers("prior");
        return BinaryChain.Of(
            prior,
            HiddenChain.Square(inputs.Numbers("transition"), prior.Length),
            inputs.Numbers("p_seen"),
            [.. inputs.Numbers("seen").Select(sign => Whole.Within(sign, 0, 1, "seen") == 1)]
        );
    }

    private static HiddenChain Poisson(CheckInputs inputs, CheckSurroundings surroundings)
    {
        FromStationary(inputs);
        var means = inputs.Numbers("lambda");
        return new PoissonChain(means, HiddenChain.Square(inputs.Numbers("transition"), means.Length)).Seeing(
            Counts(inputs, surroundings)
        );
    }

    private static PoissonChainFit Fit(CheckInputs inputs, CheckSurroundings surroundings)
    {
        if (inputs.Has("start"))
        {
            FromStationary(inputs);
        }

        return PoissonChainFit.Of(Counts(inputs, surroundings), inputs.WholeNumber("states", 1));
    }

    private static void FromStationary(CheckInputs inputs) => inputs.OneOf("start", ("stationary", true));

    private static int[] Counts(CheckInputs inputs, CheckSurroundings surroundings) =>
        [
            .. surroundings
                .Table(inputs.Word("data"))
                .Numbers(inputs.Word("column"))
                .Select(count => Whole.Within(count, 0, int.MaxValue, "column")),
        ];
}
