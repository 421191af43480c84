namespace Broodtide.Workbench.Mixing;

/// <summary>Why water cannot be had as wished, and the nearest that can.</summary>
/// <param name="Code">The reason.</param>
/// <param name="Given">What was wished or given, in the unit the code names.</param>
/// <param name="Nearest">The nearest that can be, in the same unit; none where nothing of the kind helps.</param>
public sealed record MixingRefusal(MixingRefusalCode Code, double Given, double? Nearest);

/// <summary>Why water cannot be had as wished.</summary>
public enum MixingRefusalCode
{
    /// <summary>The salinity lies outside 0 to 42, where density is published; practical salinity.</summary>
    SalinityOutsideRange,

    /// <summary>The temperature lies outside -2 to 40 degC, where density is published; degC.</summary>
    TemperatureOutsideRange,

    /// <summary>There is no water to speak of, or more than any bench holds; litres.</summary>
    VolumeOutsideRange,

    /// <summary>A specific gravity without its reference temperatures: ask for them; the number as said.</summary>
    ReferenceNeeded,

    /// <summary>No salinity belongs to the number on its scale; the number as said.</summary>
    NoSuchSalinity,

    /// <summary>The water to start from is saltier than what is wished; practical salinity.</summary>
    WaterTooSalt,

    /// <summary>The target lies outside the waters to blend; practical salinity.</summary>
    NotBetweenTheWaters,

    /// <summary>There is not enough of the waters at hand; litres.</summary>
    NotEnoughWater,

    /// <summary>The culture is not denser than what is wished; cells/mL.</summary>
    CultureTooThin,

    /// <summary>More cells than larvae are ever given: they were likely said a litre; cells/mL.</summary>
    CellsPerLitreLikely,

    /// <summary>Animals are in the water: no bleach and no thiosulfate goes in; no number.</summary>
    AnimalsInside,

    /// <summary>Thiosulfate follows a measured residual, and none was measured; no number.</summary>
    ResidualNotMeasured,

    /// <summary>Bleach without strength; g/L.</summary>
    BleachWithoutStrength,

    /// <summary>The test still shows chlorine: no animals yet; mg/L.</summary>
    ChlorineLeft,
}

/// <summary>Something worked out, or why not.</summary>
/// <typeparam name="T">What was asked for.</typeparam>
public abstract record MixingAnswer<T>
{
    private protected MixingAnswer() { }

    /// <summary>It can be.</summary>
    public sealed record Found(T Value) : MixingAnswer<T>;

    /// <summary>It cannot.</summary>
    public sealed record Refused(MixingRefusal Refusal) : MixingAnswer<T>;

    internal static MixingAnswer<T> No(MixingRefusalCode code, double given, double? nearest = null) =>
        new Refused(new(code, given, nearest));
}
