using Broodtide.Units;
using MathNet.Numerics.RootFinding;

namespace Broodtide.Science.Water;

/// <summary>
/// Practical salinity and conductivity, PSS-78, at the surface.
/// Source: Fofonoff and Millard 1983, UNESCO Technical Papers in Marine Science 44, pp. 6 to 14; range S 2 to 42,
/// -2 to 35 degC (IPTS-68). Below S = 2 the low-salinity branch of <see cref="LowSalinity"/> takes over without a
/// step. The published range told here is S 0 to 42, -2 to 35 degC.
/// </summary>
public static class PracticalSalinity
{
    /// <summary>
    /// Conductivity of sea water of S = 35 at 15 degC (IPTS-68), 42.914 mS/cm: Culkin and Smith 1980, IEEE J. Ocean.
    /// Eng. 5:22.
    /// </summary>
    public const double StandardConductivity = 42.914;

    private const double HighestPublished = 42;
    private const double LowestPublishedT68 = -2;
    private const double HighestPublishedT68 = 35;

    // The root of R_t at S = 42 is 1.09; a search for any salinity up to 500 ends below this.
    private const double HighestSoughtRoot = 5;

    /// <summary>Salinity from conductivity as measured, not referred to 25 degC.</summary>
    /// <returns>Published for S 0 to 42 and -2 to 35 degC.</returns>
    /// <exception cref="ArgumentOutOfRangeException">So far outside that the formula has no value.</exception>
    public static Computed<Salinity> FromConductivity(Conductivity raw, Temperature temperature) =>
        FromConductivityRatio(raw.MillisiemensPerCentimetre / StandardConductivity, temperature);

    /// <summary>Conductivity as a meter without compensation would measure it.</summary>
    /// <returns>Published for S 0 to 42 and -2 to 35 degC.</returns>
    /// <exception cref="ArgumentOutOfRangeException">So far outside that the formula has no value.</exception>
    public static Computed<Conductivity> ConductivityOf(Salinity salinity, Temperature temperature) =>
        ConductivityRatioOf(salinity, temperature)
            .Then(ratio => Conductivity.FromMillisiemensPerCentimetre(StandardConductivity * ratio));

    /// <summary>
    /// Salinity from the conductivity ratio R = C(S,t) / C(35, 15 degC), which has no unit.
    /// </summary>
    /// <returns>Published for S 0 to 42 and -2 to 35 degC.</returns>
    /// <exception cref="ArgumentOutOfRangeException">
    /// The ratio is negative or not finite, or the formula has no value so far outside its range.
    /// </exception>
    public static Computed<Salinity> FromConductivityRatio(double ratio, Temperature temperature)
    {
        Finite.NotNegative(ratio);
        var t = temperature.CelsiusIpts68;
        var s = SalinityOf(ratio, t, decibar: 0);
        return new(Salinity.FromPractical(s), IsPublished(s, t));
    }

    /// <summary>The conductivity ratio R = C(S,t) / C(35, 15 degC) of a salinity, without unit.</summary>
    /// <param name="salinity">Practical salinity.</param>
    /// <param name="temperature">Temperature of the water.</param>
    /// <param name="tolerance">Salinity within which the answer is exact.</param>
    /// <param name="mostSteps">Steps after which the search gives up.</param>
    /// <returns>Published for S 0 to 42 and -2 to 35 degC.</returns>
    /// <exception cref="ArgumentOutOfRangeException">
    /// So far outside that the formula has no value, or the steps did not suffice.
    /// </exception>
    public static Computed<double> ConductivityRatioOf(
        Salinity salinity,
        Temperature temperature,
        double tolerance = 1e-10,
        int mostSteps = 60
    )
    {
        var s = salinity.Practical;
        var t = temperature.CelsiusIpts68;
        var published = IsPublished(s, t);
        if (s == 0)
        {
            return new(0, published);
        }

        // Each branch is searched by its own function: they meet at S = 2, so neither can find the other's root.
        var factor = s < LowSalinity.Join ? LowSalinity.FactorAt(t) : 0;
        return RobustNewtonRaphson.TryFindRoot(
            x => (factor > 0 ? Low(x, t, factor) : Pss(x, t)) - s,
            x => factor > 0 ? LowSlope(x, t, factor) : PssSlope(x, t),
            0,
            HighestSoughtRoot,
            Finite.Positive(tolerance),
            mostSteps,
            20,
            out var root
        )
            ? new(Finite.NotNegative(root * root * Polynomial.At(t, Pss78.C)), published)
            : throw new ArgumentOutOfRangeException(
                nameof(salinity),
                salinity,
                $"PSS-78 gives {salinity} no conductivity at {temperature}."
            );
    }

    /// <summary>
    /// What the same water would conduct at 25 degC (ITS-90), by the exact route: salinity at the temperature
    /// measured, then conductivity at 25 degC. Unlike a meter's straight line it holds at every salinity.
    /// </summary>
    /// <param name="raw">Conductivity as measured.</param>
    /// <param name="temperature">Temperature at which it was measured.</param>
    /// <exception cref="ArgumentOutOfRangeException">So far outside that the formula has no value.</exception>
    public static Computed<Conductivity> ReferredTo25(Conductivity raw, Temperature temperature)
    {
        var salinity = FromConductivity(raw, temperature);
        var referred = ConductivityOf(salinity.Value, Temperature.FromCelsius(25));
        return new(referred.Value, salinity.WithinPublishedRange && referred.WithinPublishedRange);
    }

    /// <summary>Practical salinity of a ratio measured under a pressure; NaN where the formula has no value.</summary>
    internal static double SalinityOf(double ratio, double t68, double decibar)
    {
        var rt = ratio / (Pss78.PressureFactor(ratio, t68, decibar) * Polynomial.At(t68, Pss78.C));
        // Below 2 microsiemens per centimetre the low branch dips under zero by 0.0003: that is no water.
        var s = Math.Max(0, SalinityAt(Math.Sqrt(rt), t68));
        return double.IsFinite(s) ? s : double.NaN;
    }

    // PSS-78 for x = sqrt(R_t), with the low-salinity branch below S = 2.
    private static double SalinityAt(double x, double t68)
    {
        var s = Pss(x, t68);
        return s >= LowSalinity.Join ? s : Low(x, t68, LowSalinity.FactorAt(t68));
    }

    private static double Low(double x, double t68, double factor) =>
        factor * LowSalinity.Corrected(Pss(x, t68), x, Warmth(t68));

    private static double LowSlope(double x, double t68, double factor) =>
        factor * (PssSlope(x, t68) + LowSalinity.CorrectionSlope(x, Warmth(t68)));

    /// <summary>PSS-78 without the low-salinity branch, for x = sqrt(R_t).</summary>
    internal static double Pss(double x, double t68) =>
        Polynomial.At(x, Pss78.A) + (Warmth(t68) * Polynomial.At(x, Pss78.B));

    /// <summary>d S / d x of <see cref="Pss"/>.</summary>
    internal static double PssSlope(double x, double t68) =>
        Polynomial.SlopeAt(x, Pss78.A) + (Warmth(t68) * Polynomial.SlopeAt(x, Pss78.B));

    /// <summary>(t - 15) / (1 + k (t - 15)).</summary>
    internal static double Warmth(double t68) =>
        (t68 - Pss78.Middle) / (1 + (Pss78.K * (t68 - Pss78.Middle)));

    private static bool IsPublished(double s, double t68) =>
        PublishedRange.Holds(s, 0, HighestPublished)
        && PublishedRange.Holds(t68, LowestPublishedT68, HighestPublishedT68);
}
