using Broodtide.Units;

namespace Broodtide.Workbench.Crossing;

/// <summary>Which water counts as brackish, and how long animals may stand in it during a crossing.</summary>
public sealed record BrackishRule
{
    // Edges are compared with this much room, in practical salinity, so that rounding does not decide.
    private const double Hair = 1e-9;

    private BrackishRule(Salinity lower, Salinity upper, double limitMinutes)
    {
        Lower = lower;
        Upper = upper;
        LimitMinutes = limitMinutes;
    }

    /// <summary>
    /// Between 1 and 17, at most 15 minutes. 17 is the lowest salinity in which larvae of Caridina multidentata
    /// completed (Kondo, Hamasaki and Dan 2021); the minutes are practice, no source: hours in half-strength water
    /// are reported to have killed.
    /// </summary>
    public static BrackishRule Practice { get; } =
        From(Salinity.FromPractical(1), Salinity.FromPractical(17), 15);

    /// <summary>At or below this water counts as fresh.</summary>
    public Salinity Lower { get; }

    /// <summary>At or above this water counts as salt.</summary>
    public Salinity Upper { get; }

    /// <summary>Longest time in brackish water, minutes.</summary>
    public double LimitMinutes { get; }

    /// <summary>From the two edges and the limit in minutes.</summary>
    /// <exception cref="ArgumentException">The edges do not ascend.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The limit is not finite or negative.</exception>
    public static BrackishRule From(Salinity lower, Salinity upper, double limitMinutes) =>
        lower <= upper
            ? new(lower, upper, Finite.NotNegative(limitMinutes))
            : throw new ArgumentException($"{lower} and {upper} do not ascend.", nameof(upper));

    /// <summary>Whether a salinity lies between the edges; the edges themselves are not brackish.</summary>
    public bool IsBrackish(Salinity salinity) =>
        salinity.Practical > Lower.Practical + Hair && salinity.Practical < Upper.Practical - Hair;
}
