namespace Broodtide.Science.Development;

/// <summary>The density of the logarithm of the requirement, made ready for the inner loop.</summary>
internal sealed class HatchingDensity
{
    /// <summary>Reach of each part, in its log standard deviations.</summary>
    private const double Reach = 4;

    private readonly double[] _logMedian;
    private readonly double[] _perSd;
    private readonly double[] _height;

    private HatchingDensity(IReadOnlyList<RequirementPart> parts)
    {
        var total = parts.Sum(part => part.Weight) * Math.Sqrt(2 * Math.PI);
        _logMedian = [.. parts.Select(part => Math.Log(part.DaysAtReference.Median))];
        _perSd = [.. parts.Select(part => 1 / part.DaysAtReference.LogSd)];
        _height = [.. parts.Select(part => part.Weight / part.DaysAtReference.LogSd / total)];
        Shortest = parts.Min(part =>
            part.DaysAtReference.Median * Math.Exp(-Reach * part.DaysAtReference.LogSd)
        );
        Longest = parts.Max(part =>
            part.DaysAtReference.Median * Math.Exp(Reach * part.DaysAtReference.LogSd)
        );
    }

    /// <summary>Shortest requirement with any density, reference days.</summary>
    internal double Shortest { get; }

    /// <summary>Longest requirement with any density, reference days.</summary>
    internal double Longest { get; }

    internal static HatchingDensity From(IReadOnlyList<RequirementPart> parts) => new(parts);

    internal double OfLog(double logUnits)
    {
        var density = 0.0;
        for (var p = 0; p < _logMedian.Length; p++)
        {
            var z = (logUnits - _logMedian[p]) * _perSd[p];
            // Beyond seven standard deviations nothing is left that a double would notice.
            if (z * z < 49)
            {
                density += _height[p] * Math.Exp(-0.5 * z * z);
            }
        }

        return density;
    }
}
