using Broodtide.Units;

namespace Broodtide.Science.Estimation.Vessels;

/// <summary>How well a parameter is founded.</summary>
public enum PriorFooting
{
    /// <summary>Measured on what it is used for.</summary>
    Measured,

    /// <summary>Measured on another species or in another water.</summary>
    Borrowed,

    /// <summary>Common practice or an estimate of this project, without a source.</summary>
    Practice,

    /// <summary>A published figure from memory, not read again.</summary>
    Memory,
}

/// <summary>
/// What is believed of a parameter before a vessel has been read: log-normal (for
/// <see cref="VesselParameter.LarvaeError"/> normal), cut at bounds.
/// </summary>
public sealed record VesselPrior
{
    /// <summary>A belief.</summary>
    /// <param name="parameter">Which.</param>
    /// <param name="median">Median, within the bounds.</param>
    /// <param name="logSd">Standard deviation of its natural logarithm (plainly its own for the error of larvae), 0 or more.</param>
    /// <param name="lowest">Lower bound.</param>
    /// <param name="highest">Upper bound, not below the lower.</param>
    /// <param name="footing">How well it is founded.</param>
    /// <param name="source">Where it is from.</param>
    /// <exception cref="ArgumentOutOfRangeException">Not finite, negative, or out of order.</exception>
    public VesselPrior(
        VesselParameter parameter,
        double median,
        double logSd,
        double lowest,
        double highest,
        PriorFooting footing,
        string source
    )
    {
        Parameter = parameter;
        IsLogarithmic = parameter != VesselParameter.LarvaeError;
        Lowest = IsLogarithmic ? Finite.NotNegative(lowest) : Finite.Required(lowest);
        Highest = Finite.Within(highest, lowest, double.MaxValue);
        Median = Finite.Within(median, lowest, highest);
        LogSd = Finite.NotNegative(logSd);
        Footing = footing;
        Source = source;
    }

    /// <summary>Which.</summary>
    public VesselParameter Parameter { get; }

    /// <summary>Median, in the unit that the parameter names.</summary>
    public double Median { get; }

    /// <summary>Standard deviation of the natural logarithm.</summary>
    public double LogSd { get; }

    /// <summary>Lower bound.</summary>
    public double Lowest { get; }

    /// <summary>Upper bound.</summary>
    public double Highest { get; }

    /// <summary>How well it is founded.</summary>
    public PriorFooting Footing { get; }

    /// <summary>Where it is from.</summary>
    public string Source { get; }

    /// <summary>
    /// Days after which a rate still tells 1/e of what it was: rates wander from day to day. None where it is always
    /// the same, or not a logarithm.
    /// </summary>
    public double? MemoryDays { get; private init; }

    /// <summary>The same belief about something that wanders.</summary>
    /// <param name="memoryDays">Days after which a rate still tells 1/e of what it was, above 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">Not above 0, not finite, or not a logarithm.</exception>
    public VesselPrior Wandering(double memoryDays)
    {
        if (!IsLogarithmic)
        {
            throw new ArgumentOutOfRangeException(nameof(memoryDays), Parameter, "Only rates wander.");
        }

        return this with
        {
            MemoryDays = Finite.Positive(memoryDays),
        };
    }

    internal bool IsLogarithmic { get; }

    /// <summary>The value at a point of the standard normal scale, held within the bounds.</summary>
    internal double At(double z) =>
        Math.Clamp(IsLogarithmic ? Median * Math.Exp(LogSd * z) : Median + (LogSd * z), Lowest, Highest);
}
