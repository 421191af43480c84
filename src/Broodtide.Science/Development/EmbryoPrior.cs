using Broodtide.Units;

namespace Broodtide.Science.Development;

/// <summary>
/// What is believed about the development of a species' eggs before anything is seen of the brood at hand. A
/// species profile fills it; see <see cref="ReferencePriors"/> for one with its sources.
/// </summary>
/// <remarks>
/// Development runs at the rate (T - base) / (reference - base), in reference days per day, and the eggs hatch when
/// the sum reaches the requirement. Written so, the requirement in degree-days, days times (reference - base), is
/// tied to the base temperature as measurements at one temperature tie them: a base that is unknown does not
/// disturb the forecast at the reference temperature, and widens it more the further the water is from there.
/// </remarks>
public sealed record EmbryoPrior
{
    /// <summary>Slowest rate that is worked with, degC above the base temperature: eggs in the cold pause.</summary>
    internal const double SlowestCelsiusAboveBase = 0.5;

    /// <summary>The temperature at which the requirement was measured.</summary>
    public required Temperature ReferenceTemperature { get; init; }

    /// <summary>
    /// Days from spawning to hatch at the reference temperature: between-brood spread and the uncertainty of the
    /// species' own figure together. At least one part.
    /// </summary>
    public required IReadOnlyList<RequirementPart> Requirement { get; init; }

    /// <summary>Middle of the belief about the base temperature (where development would stop), degC.</summary>
    public required double BaseCelsius { get; init; }

    /// <summary>Standard deviation of the belief about the base temperature, degC, 0 to 10.</summary>
    public required double BaseSdCelsius { get; init; }

    /// <summary>Share of the development at which eyes can be seen as dots, 0 to 1 (median below 1).</summary>
    public required LognormalSpread EyedRatio { get; init; }

    /// <summary>Days before the first hatch at which the eggs turn pale.</summary>
    public required LognormalSpread PaleLeadDays { get; init; }

    /// <summary>Days before the first hatch at which a new saddle shows on the carrying female.</summary>
    public required LognormalSpread SaddleLeadDays { get; init; }

    /// <summary>Share of hatchings that begin in the dark.</summary>
    public Probability NightShare { get; init; } = Probability.FromFraction(0.9);

    /// <summary>
    /// Length of the dark, days, centred on midnight. Half a day is an assumption: no account read gives lights-out.
    /// </summary>
    public double DarkDays { get; init; } = 0.5;

    /// <summary>How far a keeper's looks can be trusted.</summary>
    public LookTrust Looks { get; init; } = LookTrust.Customary;

    /// <summary>This prior, or a throw if it cannot be worked with.</summary>
    /// <exception cref="InvalidOperationException">The requirement has no part.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A number is not finite or outside its range.</exception>
    internal EmbryoPrior Checked()
    {
        if (Requirement.Count == 0)
        {
            throw new InvalidOperationException("The requirement needs at least one part.");
        }

        foreach (var part in Requirement)
        {
            Finite.Positive(part.Weight);
            Finite.Positive(part.DaysAtReference.LogSd);
        }

        Finite.Within(BaseSdCelsius, 0, 10);
        Finite.Within(BaseCelsius, -20, ReferenceTemperature.Celsius - 2);
        Finite.Within(EyedRatio.Median, 0.01, 1);
        Finite.Within(PaleLeadDays.Median, 0.01, 60);
        Finite.Within(SaddleLeadDays.Median, 0.01, 60);
        Finite.Within(DarkDays, 0.05, 0.95);
        Looks.Check();
        return this;
    }
}
