using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Vessels;
using Broodtide.Science.Estimation.Vessels;
using Broodtide.Units;
using Broodtide.Workbench.Recording;
using NodaTime;

namespace Broodtide.Workbench.Safety;

/// <summary>What comes with algae that are poured in.</summary>
internal static class GreenWater
{
    // Tetraselmis as it is usually harvested, 0.5 to 2 million a millilitre (from memory).
    private const double UsualPerMillilitre = 1e6;

    // f/2 holds 12.35 mg/L of nitrate as nitrogen; a grown culture has used the most of it (read; the share is practice).
    private const double NitrateLeft = 3;

    public static IncomingWater Of(House house, VesselFed fed, Instant when)
    {
        var culture = fed.From;
        var said =
            fed.Density is { Unit: UnitCode.CellsPerMillilitre, Value: >= 0 and <= 1e12 } density
                ? density.Value
            : culture is { } from ? CellsSeen.Last(house, from, when)?.PerMillilitre
            : null;
        return Water(house, culture, said, when);
    }

    public static IncomingWater Of(House house, VesselId culture, Instant when) =>
        Water(house, culture, CellsSeen.Last(house, culture, when)?.PerMillilitre, when);

    private static IncomingWater Water(House house, VesselId? culture, double? perMillilitre, Instant when) =>
        new()
        {
            CellsPerMillilitre = perMillilitre is { } counted
                ? counted * AsTetraselmis(house, culture, when)
                : UsualPerMillilitre,
            Nitrate = Concentration.FromMilligramsPerLitre(NitrateLeft),
        };

    /// <summary>
    /// A cell counted in <em>Tetraselmis suecica</em>, by dry mass: pg a cell by Brown 1991 (from memory; the mass of
    /// Chlorella and of mixed green water is taken as that of Nannochloropsis and of Isochrysis).
    /// </summary>
    public static double AsTetraselmis(House house, VesselId? culture, Instant when)
    {
        var alga =
            culture is { } id
            && house.Vessel(id).Cultures.LastOrDefault(told => told.Happened.Earliest <= when)?.Fact
                is CultureDescribed described
                ? described.Alga
                : (CultureKind?)null;
        return alga switch
            {
                CultureKind.TetraselmisChui => 269,
                CultureKind.Nannochloropsis or CultureKind.Chlorella => 6.1,
                CultureKind.Isochrysis or CultureKind.MixedGreenWater => 30.5,
                CultureKind.Chaetoceros => 11.3,
                CultureKind.ThalassiosiraPseudonana => 28.4,
                CultureKind.Phaeodactylum => 76.7,
                _ => 168.0,
            } / 168;
    }
}
