namespace Broodtide.Science.Water;

/// <summary>How a refractometer was set before reading.</summary>
public enum RefractometerZero
{
    /// <summary>Not at all: it shows the index as it is, without compensation for warmth.</summary>
    None,

    /// <summary>
    /// To zero with pure water at the temperature of the sample, or by an ideal compensation made for water.
    /// </summary>
    Water,
}
