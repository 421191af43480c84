using Broodtide.Units;

namespace Broodtide.Science.Development.ThermalTime;

/// <summary>
/// The straight line of development from times at several temperatures. Only between the coldest and the warmest that
/// was tried does it say anything; larvae of some atyids do not finish well above the threshold it gives.
/// </summary>
public static class ThermalFit
{
    /// <summary>Ordinary regression of 1/D on the temperature; threshold and degree-days of the line.</summary>
    /// <param name="trials">Temperature and days; two or more different temperatures, days above zero.</param>
    /// <exception cref="ArgumentException">Fewer than two temperatures, or the line does not rise.</exception>
    public static LinearRate ByRates(params ReadOnlySpan<(Temperature Temperature, double Days)> trials)
    {
        var sums = new Sums();
        foreach (var (temperature, days) in trials)
        {
            sums.Add(temperature.Celsius, 1 / Finite.Positive(days));
        }

        var slope = sums.Covariance / sums.VarianceX;
        if (!(slope > 0 && double.IsFinite(slope)))
        {
            throw NotRising(nameof(trials));
        }

        return new LinearRate(Temperature.FromCelsius(sums.MeanX - (sums.MeanY / slope)), 1 / slope);
    }

    /// <summary>
    /// Reduced major axis of D t on D, whose slope is the threshold and whose intercept the degree-days: it does not give
    /// the slowest trial the least weight (Ikemoto and Takai 2000, Environ. Entomol. 29:671).
    /// </summary>
    /// <param name="trials">Temperature and days; two or more different temperatures, days above zero.</param>
    /// <exception cref="ArgumentException">Fewer than two temperatures, or the line does not rise.</exception>
    public static LinearRate ByProducts(params ReadOnlySpan<(Temperature Temperature, double Days)> trials)
    {
        var sums = new Sums();
        foreach (var (temperature, days) in trials)
        {
            sums.Add(Finite.Positive(days), days * temperature.Celsius);
        }

        var slope = Math.Sign(sums.Covariance) * Math.Sqrt(sums.VarianceY / sums.VarianceX);
        var degreeDays = sums.MeanY - (Finite.Required(slope, nameof(trials)) * sums.MeanX);
        return degreeDays > 0
            ? new LinearRate(Temperature.FromCelsius(slope), degreeDays)
            : throw NotRising(nameof(trials));
    }

    private static ArgumentException NotRising(string trials) =>
        new("Two or more different temperatures are needed, the warmer the faster.", trials);

    /// <summary>Means and moments, added up one by one (Welford 1962, Technometrics 4:419).</summary>
    private sealed class Sums
    {
        private int _count;

        public double MeanX { get; private set; }

        public double MeanY { get; private set; }

        public double VarianceX { get; private set; }

        public double VarianceY { get; private set; }

        public double Covariance { get; private set; }

        public void Add(double x, double y)
        {
            _count++;
            var fromX = x - MeanX;
            var fromY = y - MeanY;
            MeanX += fromX / _count;
            MeanY += fromY / _count;
            VarianceX += fromX * (x - MeanX);
            VarianceY += fromY * (y - MeanY);
            Covariance += fromX * (y - MeanY);
        }
    }
}
