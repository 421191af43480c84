using Broodtide.Units;

namespace Broodtide.Science.Survival;

/// <summary>
/// Weibull lives: S = exp(-(t/scale)^shape). A shape below 1 dies early, above 1 late, 1 at a constant hazard.
/// (Weibull 1951.)
/// </summary>
public sealed record WeibullLife
{
    /// <summary>By its two parameters.</summary>
    /// <param name="scale">Time at which 37 % are left, above zero; its unit is that of all times.</param>
    /// <param name="shape">Shape, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">Not finite or not positive.</exception>
    public WeibullLife(double scale, double shape)
    {
        Scale = Finite.Positive(scale);
        Shape = Finite.Positive(shape);
    }

    /// <summary>Time at which 37 % are left.</summary>
    public double Scale { get; }

    /// <summary>Shape.</summary>
    public double Shape { get; }

    /// <summary>Share alive at an age.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite or negative.</exception>
    public double Survival(double age) => Math.Exp(-Math.Pow(Finite.NotNegative(age) / Scale, Shape));

    /// <summary>Hazard at an age, per unit of time.</summary>
    /// <exception cref="ArgumentOutOfRangeException">
    /// Not finite or negative; or zero where the shape is below 1 and the hazard infinite.
    /// </exception>
    public double Hazard(double age) =>
        Shape
        / Scale
        * Math.Pow((Shape < 1 ? Finite.Positive(age) : Finite.NotNegative(age)) / Scale, Shape - 1);
}

/// <summary>Gompertz lives: hazard a exp(b t), S = exp(-(a/b)(exp(b t) - 1)). (Gompertz 1825.)</summary>
public sealed record GompertzLife
{
    /// <summary>By its two parameters.</summary>
    /// <param name="start">Hazard at age zero, a, per unit of time, above zero.</param>
    /// <param name="growth">Growth of the hazard, b, per unit of time; not zero. Below zero some never die.</param>
    /// <exception cref="ArgumentOutOfRangeException">Not finite, or outside these limits.</exception>
    public GompertzLife(double start, double growth)
    {
        Start = Finite.Positive(start);
        Growth = growth > 0 ? Finite.Positive(growth) : -Finite.Positive(-growth, nameof(growth));
    }

    /// <summary>Hazard at age zero, per unit of time.</summary>
    public double Start { get; }

    /// <summary>Growth of the hazard, per unit of time.</summary>
    public double Growth { get; }

    /// <summary>Share alive at an age.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite or negative.</exception>
    public double Survival(double age) =>
        Math.Exp(-Start / Growth * (Math.Exp(Growth * Finite.NotNegative(age)) - 1));

    /// <summary>Hazard at an age, per unit of time.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite or negative.</exception>
    public double Hazard(double age) => Start * Math.Exp(Growth * Finite.NotNegative(age));
}

/// <summary>
/// Two Weibull causes at once, an early and a late one: S = exp(-(t/early)^p - (t/late)^q) with p &lt; 1 &lt; q, so
/// that the hazard falls first and rises later.
/// </summary>
public sealed record BathtubLife
{
    /// <summary>By the two causes.</summary>
    /// <param name="early">The early one, of a shape below 1.</param>
    /// <param name="late">The late one, of a shape above 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">A shape lies on the wrong side of 1.</exception>
    public BathtubLife(WeibullLife early, WeibullLife late)
    {
        Finite.Within(early.Shape, 0, Math.BitDecrement(1));
        Finite.Within(late.Shape, Math.BitIncrement(1), double.MaxValue);
        Early = early;
        Late = late;
    }

    /// <summary>The early cause.</summary>
    public WeibullLife Early { get; }

    /// <summary>The late cause.</summary>
    public WeibullLife Late { get; }

    /// <summary>Share alive at an age.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite or negative.</exception>
    public double Survival(double age) => Early.Survival(age) * Late.Survival(age);

    /// <summary>Hazard at an age, per unit of time.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite, or not above zero.</exception>
    public double Hazard(double age) => Early.Hazard(age) + Late.Hazard(age);
}
