using System.Globalization;

namespace Broodtide.Cli.Sensors;

/// <summary>Numbers of sensors as they are printed.</summary>
internal static class SensorNumbers
{
    /// <summary>At most three decimals; a dash where there is none.</summary>
    public static string Of(double? value) =>
        value is { } number ? number.ToString("0.###", CultureInfo.InvariantCulture) : "-";
}
