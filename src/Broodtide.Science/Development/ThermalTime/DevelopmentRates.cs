using Broodtide.Units;

namespace Broodtide.Science.Development.ThermalTime;

/// <summary>How fast development goes at a temperature: the share of the whole that a day brings.</summary>
public interface IDevelopmentRate
{
    /// <summary>Share a day, 1/d; 0 outside the limits of the law.</summary>
    /// <param name="temperature">Held all day.</param>
    double PerDay(Temperature temperature);
}

/// <summary>
/// In proportion to the warmth above a threshold, (t - t0)/K. It fails at both ends: animals held near the threshold take
/// longer than it says or do not finish.
/// </summary>
/// <param name="Threshold">t0.</param>
/// <param name="DegreeDays">K, degC d.</param>
public sealed record LinearRate(Temperature Threshold, double DegreeDays) : IDevelopmentRate
{
    /// <inheritdoc/>
    public double PerDay(Temperature temperature) =>
        Math.Max(0, (temperature - Threshold).Celsius) / Finite.Positive(DegreeDays);
}

/// <summary>a t (t - T0) sqrt(TL - t) (Briere and others 1999, Environ. Entomol. 28:22, their first form).</summary>
/// <param name="Factor">a, above zero.</param>
/// <param name="Lower">T0.</param>
/// <param name="Upper">TL, above the lower.</param>
public sealed record BriereRate(double Factor, Temperature Lower, Temperature Upper) : IDevelopmentRate
{
    /// <inheritdoc/>
    public double PerDay(Temperature temperature)
    {
        var t = temperature.Celsius;
        // Below freezing the leading t would turn the sign; nothing develops there either.
        return t <= Math.Max(0, Lower.Celsius) || temperature >= Upper
            ? 0
            : Factor * t * (t - Lower.Celsius) * Math.Sqrt(Upper.Celsius - t);
    }

    /// <summary>Where the rate is greatest, the root of its slope.</summary>
    public Temperature Optimum
    {
        get
        {
            var (low, high) = (Lower.Celsius, Upper.Celsius);
            return Temperature.FromCelsius(
                ((4 * high) + (3 * low) + Math.Sqrt((16 * high * high) + (9 * low * low) - (16 * low * high)))
                    / 10
            );
        }
    }
}

/// <summary>
/// e^(rho t) - e^(rho Tm - (Tm - t)/delta) + lambda (Lactin and others 1995, Environ. Entomol. 24:68; without lambda
/// their first form). It subtracts two large numbers: no digit of the parameters may be dropped.
/// </summary>
/// <param name="Rho">rho, 1/degC.</param>
/// <param name="Highest">Tm.</param>
/// <param name="Delta">delta, degC, above zero.</param>
/// <param name="Shift">lambda.</param>
public sealed record LactinRate(double Rho, Temperature Highest, double Delta, double Shift = 0)
    : IDevelopmentRate
{
    /// <inheritdoc/>
    public double PerDay(Temperature temperature)
    {
        var t = temperature.Celsius;
        var top = Highest.Celsius;
        return temperature >= Highest
            ? 0
            : Math.Max(
                0,
                Math.Exp(Rho * t) - Math.Exp((Rho * top) - ((top - t) / Finite.Positive(Delta))) + Shift
            );
    }
}

/// <summary>
/// Kinetics of one enzyme switched off by cold and by heat, in the form of Schoolfield and others 1981 (J. Theor. Biol.
/// 88:719). Kelvin are degC + 273.16, the reference 298 K and the gas constant 1.987 cal/(K mol), as the published
/// parameters were fitted.
/// </summary>
/// <param name="At298Kelvin">Rate at 298 K, 1/d.</param>
/// <param name="Activation">HA, cal/mol.</param>
/// <param name="ColdEnergy">HL, cal/mol.</param>
/// <param name="ColdHalfKelvin">TL: half switched off by cold, K.</param>
/// <param name="HeatEnergy">HH, cal/mol.</param>
/// <param name="HeatHalfKelvin">TH: half switched off by heat, K.</param>
public sealed record SchoolfieldRate(
    double At298Kelvin,
    double Activation,
    double ColdEnergy,
    double ColdHalfKelvin,
    double HeatEnergy,
    double HeatHalfKelvin
) : IDevelopmentRate
{
    private const double Reference = 298;

    /// <inheritdoc/>
    public double PerDay(Temperature temperature)
    {
        var kelvin = EnzymeKinetics.Kelvin(temperature);
        return At298Kelvin
            * kelvin
            / Reference
            * Switch(Activation, Reference, kelvin)
            / (1 + Switch(ColdEnergy, ColdHalfKelvin, kelvin) + Switch(HeatEnergy, HeatHalfKelvin, kelvin));
    }

    private static double Switch(double energy, double halfKelvin, double kelvin) =>
        Math.Exp(energy / EnzymeKinetics.Gas * ((1 / halfKelvin) - (1 / kelvin)));
}

/// <summary>
/// The same kinetics with six constants, K e^((a - b/K)/R) / (1 + e^((c - d/K)/R) + e^((f - g/K)/R)) (Sharpe and
/// DeMichele 1977, J. Theor. Biol. 64:649). The unit of time is that of the constants: theirs give shares an hour.
/// </summary>
/// <param name="A">a.</param>
/// <param name="B">b.</param>
/// <param name="C">c.</param>
/// <param name="D">d.</param>
/// <param name="F">f.</param>
/// <param name="G">g.</param>
public sealed record SharpeDeMicheleRate(double A, double B, double C, double D, double F, double G)
{
    /// <summary>Share in the unit of time of the constants.</summary>
    /// <param name="temperature">Held all the time.</param>
    public double At(Temperature temperature)
    {
        var kelvin = EnzymeKinetics.Kelvin(temperature);
        return kelvin * Part(A, B, kelvin) / (1 + Part(C, D, kelvin) + Part(F, G, kelvin));
    }

    private static double Part(double entropy, double enthalpy, double kelvin) =>
        Math.Exp((entropy - (enthalpy / kelvin)) / EnzymeKinetics.Gas);
}

/// <summary>Constants as the published parameters were fitted with.</summary>
internal static class EnzymeKinetics
{
    /// <summary>cal/(K mol).</summary>
    internal const double Gas = 1.987;

    internal static double Kelvin(Temperature temperature) => temperature.Celsius + 273.16;
}

/// <summary>
/// Days as a power of warmth, a (t - alpha)^b (Belehradek 1935). For <em>Calanus finmarchicus</em> eggs: 595, -9.11 and
/// -2.05 (Corkett, McLaren and Sevigny 1986, from memory).
/// </summary>
/// <param name="Factor">a, above zero.</param>
/// <param name="Alpha">alpha: where nothing would ever finish.</param>
/// <param name="Exponent">b, below zero.</param>
public sealed record BelehradekRate(double Factor, Temperature Alpha, double Exponent) : IDevelopmentRate
{
    /// <inheritdoc/>
    public double PerDay(Temperature temperature) =>
        temperature <= Alpha
            ? 0
            : 1 / (Finite.Positive(Factor) * Math.Pow((temperature - Alpha).Celsius, Exponent));
}
