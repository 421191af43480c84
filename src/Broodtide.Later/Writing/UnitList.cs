using Broodtide.Domain.Journal;
using Broodtide.Phone.Language;

namespace Broodtide.Phone.Writing;

/// <summary>Units to choose from.</summary>
internal static class UnitList
{
    /// <summary>Scales that an instrument may have.</summary>
    public static IReadOnlyList<string> Scales { get; } =
    [.. Of([Dimension.Salinity, Dimension.Temperature, Dimension.Acidity, Dimension.Oxygen])];

    /// <summary>The units of dimensions, in the journal's order.</summary>
    public static IEnumerable<string> Of(IReadOnlyList<Dimension> dimensions) =>
        dimensions.SelectMany(dimension =>
            UnitCode.All.Where(unit => unit.Dimension == dimension).Select(unit => unit.Code)
        );

    /// <summary>The unit a keeper most likely types in; none where several things may be measured.</summary>
    public static string Usual(IReadOnlyList<Dimension> dimensions, UnitSystem units) =>
        dimensions.Count > 1
            ? ""
            : dimensions[0] switch
            {
                Dimension.Volume => units == UnitSystem.Us ? "[qt_us]" : "mL",
                Dimension.Mass => "g",
                Dimension.Temperature => units == UnitSystem.Us ? "[degF]" : "Cel",
                Dimension.Salinity => UnitCode.PracticalSalinity,
                Dimension.Duration => "min",
                Dimension.Chlorine => "mg/L{Cl2}",
                var other => Of([other]).First(),
            };
}
