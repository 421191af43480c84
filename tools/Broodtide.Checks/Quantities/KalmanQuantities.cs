using Broodtide.Oracles.Levels;

namespace Broodtide.Checks.Quantities;

/// <summary>The local level model.</summary>
internal static class KalmanQuantities
{
    private const string Keys = "data, column, var_eps, var_eta, init";
    private const string KnownKeys = $"{Keys}, mean, var, t, (n)";

    public static IReadOnlyList<Quantity> All { get; } =
    [
        Of(
            "kalman.local_level.loglik",
            $"{Keys}, (mean), (var), (offset), (n)",
            (track, _) => track.LogLikelihood
        ),
        Of(
            "kalman.local_level.filtered_mean",
            KnownKeys,
            (track, inputs) => track.Mean[inputs.Place("t", track.Mean.Count)]
        ),
        Of(
            "kalman.local_level.filtered_var",
            KnownKeys,
            (track, inputs) => track.Variance[inputs.Place("t", track.Mean.Count)]
        ),
        Of(
            "kalman.local_level.ljung_box",
            $"{Keys}, lags",
            (track, inputs) => track.LjungBox(inputs.WholeNumber("lags", 1))
        ),
        Of(
            "kalman.local_level.smoothed_mean",
            $"{Keys}, t",
            (track, inputs) => track.Smooth().Mean[inputs.Place("t", track.Mean.Count)]
        ),
        Of(
            "kalman.local_level.smoothed_var",
            $"{Keys}, t",
            (track, inputs) => track.Smooth().Variance[inputs.Place("t", track.Mean.Count)]
        ),
    ];

    private static Quantity Of(string name, string keys, Func<LevelTrack, CheckInputs, double> answer) =>
        Quantity.WithData(
            name,
            keys,
            (inputs, surroundings) => [answer(Track(inputs, surroundings), inputs)]
        );

    private static LevelTrack Track(CheckInputs inputs, CheckSurroundings surroundings)
    {
        var series = surroundings.Table(inputs.Word("data")).Numbers(inputs.Word("column"));
        var level = new LocalLevel(
            inputs.Number("var_eps"),
            inputs.Number("var_eta"),
            inputs.NumberOr("offset", 0)
        );
        return LevelTrack.Of(
            inputs.Has("n") ? series[..(inputs.Place("n", series.Length) + 1)] : series,
            level,
            Start(inputs)
        );
    }

    private static LevelStart Start(CheckInputs inputs) =>
        inputs.OneOf<Func<LevelStart>>(
            "init",
            ("diffuse_dropped", () => new LevelStart.Diffuse(false)),
            ("diffuse_exact", () => new LevelStart.Diffuse(true)),
            ("known", () => new LevelStart.Known(inputs.Number("mean"), inputs.Number("var"))),
            ("known_t0", () => new LevelStart.KnownBefore(inputs.Number("mean"), inputs.Number("var")))
        )();
}
