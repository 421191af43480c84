using Broodtide.Science.Statistics;

namespace Broodtide.Science.Development;

/// <summary>
/// The eyed looks for one candidate of spawning and temperature: P(eyed before the look) = P(ratio below
/// U(look) / U(hatch)), with a log-normal ratio.
/// </summary>
internal readonly struct EyedTerms
{
    private readonly double _constant;
    private readonly double[] _coefficients;
    private readonly double[] _logUnits;
    private readonly double _perSd;

    private EyedTerms(double constant, double[] coefficients, double[] logUnits, double perSd)
    {
        _constant = constant;
        _coefficients = coefficients;
        _logUnits = logUnits;
        _perSd = perSd;
    }

    internal static EyedTerms From(
        Onset looks,
        Development development,
        double atSpawning,
        LognormalSpread ratio
    )
    {
        var logs = new double[looks.Days.Length];
        for (var k = 0; k < logs.Length; k++)
        {
            var units = development.Upto(looks.Days[k]) - atSpawning;
            // A look before spawning saw no eyes: the table gives zero for it.
            logs[k] = units > 0 ? Math.Log(units / ratio.Median) : double.NegativeInfinity;
        }

        // A ratio known exactly is a step, drawn as a very steep slope.
        return new(looks.Constant, looks.Coefficients, logs, 1 / Math.Max(ratio.LogSd, 1e-6));
    }

    internal double Likelihood(double logUnitsAtHatch)
    {
        var sum = _constant;
        for (var k = 0; k < _coefficients.Length; k++)
        {
            sum += _coefficients[k] * NormalTable.Below((_logUnits[k] - logUnitsAtHatch) * _perSd);
        }

        // Rounding may leave a hair below zero.
        return Math.Max(0, sum);
    }
}
