using Broodtide.Domain.Journal;
using Broodtide.Science.Estimation.Vessels;

namespace Broodtide.Workbench.Safety.Scoring;

/// <summary>How quantities of a vessel that can be measured are called and written in forecasts.</summary>
internal static class QuantityUnits
{
    public static IReadOnlyList<(VesselQuantity Quantity, string Code, string Unit)> All { get; } =
    [
        (VesselQuantity.Tan, "tan", "mg/L{TAN-N}"),
        (VesselQuantity.Nitrite, "nitrite", "mg/L{NO2-N}"),
        (VesselQuantity.Nitrate, "nitrate", "mg/L{NO3-N}"),
        (VesselQuantity.Oxygen, "oxygen", "mg/L{O2}"),
        (VesselQuantity.PHNbs, "ph", "[pH]"),
        (VesselQuantity.CellsPerMillilitre, "cells", UnitCode.CellsPerMillilitre),
    ];

    /// <summary>The quantity of a code; none for a code of another version.</summary>
    public static VesselQuantity? Find(string code)
    {
        foreach (var known in All)
        {
            if (string.Equals(known.Code, code, StringComparison.Ordinal))
            {
                return known.Quantity;
            }
        }

        return null;
    }
}
