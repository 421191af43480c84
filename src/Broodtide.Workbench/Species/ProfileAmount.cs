using Broodtide.Units;

namespace Broodtide.Workbench.Species;

/// <summary>
/// The numbers of a quantity, in its unit: a value, a low and a high, each of which may be missing. A limit has
/// only a low (at least) or only a high (at most). The default holds none.
/// </summary>
public readonly record struct ProfileAmount
{
    private ProfileAmount(double? value, double? low, double? high)
    {
        Value = value;
        Low = low;
        High = high;
    }

    /// <summary>The value, if there is one.</summary>
    public double? Value { get; }

    /// <summary>The low end, if there is one.</summary>
    public double? Low { get; }

    /// <summary>The high end, if there is one.</summary>
    public double? High { get; }

    /// <summary>Whether no number is given.</summary>
    public bool IsEmpty => Value is null && Low is null && High is null;

    /// <summary>From its parts.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A part is not finite, or the parts do not ascend.</exception>
    public static ProfileAmount FromParts(double? value, double? low, double? high)
    {
        if (value is { } v)
        {
            Finite.Required(v, nameof(value));
        }

        if (low is { } l)
        {
            Finite.Required(l, nameof(low));
        }

        if (high is { } h)
        {
            Finite.Required(h, nameof(high));
        }

        return Ascend(value, low, high)
            ? new(value, low, high)
            : throw new ArgumentOutOfRangeException(nameof(value), value, "low, value and high must ascend.");
    }

    /// <summary>Whether the parts that are there ascend: low, value, high.</summary>
    public static bool Ascend(double? value, double? low, double? high) =>
        !(low > value) && !(value > high) && !(low > high);

    /// <summary>Whether every part lies inside the ends that <paramref name="published"/> has.</summary>
    public bool LiesWithin(ProfileAmount published) =>
        Inside(Value, published) && Inside(Low, published) && Inside(High, published);

    private static bool Inside(double? part, ProfileAmount published) =>
        !(part < published.Low) && !(part > published.High);
}
