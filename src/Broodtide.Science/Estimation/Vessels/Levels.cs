using Broodtide.Science.Statistics;

namespace Broodtide.Science.Estimation.Vessels;

/// <summary>
/// Notes in words as bands of a number, on the scale of its natural logarithm. Bounds and doubt are this project's
/// estimates: a keeper's tint is no measure.
/// </summary>
internal sealed class Levels
{
    // Nitrogen of algae, mg/L: as 1e4, 5e4 and 2.5e5 Tetraselmis/mL have.
    private static readonly double[] Colours = [Math.Log(0.083), Math.Log(0.415), Math.Log(2.1)];
    private const double ColourDoubt = 0.9;

    // Share of the thickest film.
    private static readonly double[] Covers = [Math.Log(0.05), Math.Log(0.4)];
    private const double CoverDoubt = 0.8;

    // Share of notes that say nothing: another vessel, bad light.
    private const double Slip = 0.03;

    private readonly double[] _bounds;
    private readonly double _doubt;

    private Levels(double[] bounds, double doubt, int seen)
    {
        _bounds = bounds;
        _doubt = doubt;
        Seen = seen;
    }

    internal int Count => _bounds.Length + 1;

    internal int Seen { get; }

    internal static Levels Of(VesselReading reading) =>
        reading switch
        {
            VesselReading.ColourSeen colour => new(Colours, ColourDoubt, (int)colour.Colour),
            VesselReading.FilmSeen film => new(Covers, CoverDoubt, (int)film.Cover),
            _ => throw new ArgumentException($"{reading.GetType().Name} is not known.", nameof(reading)),
        };

    /// <summary>Chance that a value is called by a level.</summary>
    internal double Chance(int level, double logarithm)
    {
        var above = level == 0 ? 1 : NormalTable.Below((logarithm - _bounds[level - 1]) / _doubt);
        var beyond = level == _bounds.Length ? 0 : NormalTable.Below((logarithm - _bounds[level]) / _doubt);
        return (Slip / Count) + ((1 - Slip) * Math.Max(0, above - beyond));
    }
}
