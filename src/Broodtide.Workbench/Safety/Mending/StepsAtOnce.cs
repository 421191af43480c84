using Broodtide.Workbench.Species;

namespace Broodtide.Workbench.Safety.Mending;

/// <summary>How far salinity and temperature may move at once, by the profile and the keeper's choice.</summary>
internal sealed class StepsAtOnce
{
    // Where a profile says nothing: a unit and a degree (common practice, no source).
    private const double Usual = 1;

    public StepsAtOnce(SpeciesProfile profile)
    {
        Salinity = Value(profile.Find(QuantityCodes.VesselSalinityStep));
        Celsius = Value(profile.Find(QuantityCodes.VesselTemperatureStep));
    }

    /// <summary>Practical salinity.</summary>
    public double Salinity { get; }

    /// <summary>degC.</summary>
    public double Celsius { get; }

    private static double Value(ProfileQuantity? quantity) => quantity?.High ?? quantity?.Value ?? Usual;
}
