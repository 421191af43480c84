using Broodtide.Science.Water;

namespace Broodtide.Science.Estimation.Vessels;

/// <summary>What an hour sets for all members alike, worked out once.</summary>
internal readonly struct HourTerms
{
    // Air stirs and keeps matter floating (this project's estimate).
    private static readonly double[] Sinking = [1, 0.5, 0.2];

    // Strong air for gentle air.
    private static readonly double[] Bubbles = [0, 1, 4];

    // Share of the walls on which nitrifiers stand: most is film, or in the light (this project's estimate).
    private const double NitrifyingWalls = 0.1;

    internal HourTerms(VesselScene scene, VesselHour hour, double litres, int stepsPerHour)
    {
        var celsius = hour.Temperature.Celsius;
        Chemistry = scene.Chemistry;
        Days = 1 / (24.0 * stepsPerHour);
        Litres = litres;
        Light = hour.LightMicromoles;
        Depth = scene.Site.DepthMetres;
        Carbonate = new(hour.Salinity, hour.Temperature);
        Saturation = OxygenSaturation.At(hour.Salinity, hour.Temperature).Value.MilligramsPerLitre;
        Growth = GrowthAt(celsius);
        Decay = Math.Pow(2, (celsius - 25) / 10);
        // A twentieth more gas for each three degrees: 1.024 a degree (from memory, usual in treatment of water), from 20.
        Gas = Math.Pow(1.024, celsius - 20);
        Bubbling = Bubbles[(int)hour.Air];
        Falling = Sinking[(int)hour.Air];
        Walls = scene.Site.WallSquareCentimetresPerLitre;
        NitrifyingPerLitre = (scene.Site.FilterSquareCentimetres / litres) + (NitrifyingWalls * Walls);
        Ripening = Math.Exp(VesselStep.RipeningPerDay * Days);
        LarvaeLow = hour.Larvae.Low / litres;
        LarvaeMiddle = hour.Larvae.Middle / litres;
        LarvaeHigh = hour.Larvae.High / litres;
        LarvaMilligrams = hour.LarvaDryMicrograms / 1000;
        HighPhHydrogen =
            scene.Chemistry.HighPh >= 14 ? 0 : Carbonate.HydrogenAt(Math.Min(11, scene.Chemistry.HighPh));
    }

    internal VesselChemistry Chemistry { get; }

    internal double Days { get; }

    internal double Litres { get; }

    internal double Light { get; }

    internal double Depth { get; }

    internal CarbonateTerms Carbonate { get; }

    internal double Saturation { get; }

    internal double Growth { get; }

    internal double Decay { get; }

    internal double Gas { get; }

    internal double Bubbling { get; }

    internal double Falling { get; }

    internal double Walls { get; }

    internal double NitrifyingPerLitre { get; }

    internal double Ripening { get; }

    internal double LarvaeLow { get; }

    internal double LarvaeMiddle { get; }

    internal double LarvaeHigh { get; }

    internal double LarvaMilligrams { get; }

    internal double HighPhHydrogen { get; }

    // As the envelope of Eppley (1972), 1.066 a degree, up to 29 degC; from there down to nothing at 38 (hatchery algae
    // become unstable above 29, Sandnes et al. 2005, abstract; the end is this project's estimate).
    internal static double GrowthAt(double celsius) =>
        Math.Pow(1.066, Math.Min(celsius, 29) - 25) * Math.Clamp((38 - celsius) / 9, 0, 1);
}
