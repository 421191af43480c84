using Broodtide.Units;

namespace Broodtide.Science.Water;

/// <summary>The air of a room.</summary>
public sealed record RoomAir
{
    /// <summary>Air of a temperature, dampness and pressure.</summary>
    /// <param name="temperature">Temperature.</param>
    /// <param name="relativeHumidity">Relative humidity, 0 to 1.</param>
    /// <param name="pressurePascals">Air pressure, Pa, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside the limits given.</exception>
    public RoomAir(Temperature temperature, double relativeHumidity, double pressurePascals = 101325)
    {
        Temperature = temperature;
        RelativeHumidity = Finite.Within(relativeHumidity, 0, 1);
        PressurePascals = Finite.Positive(pressurePascals);
    }

    /// <summary>Temperature of the air.</summary>
    public Temperature Temperature { get; }

    /// <summary>Relative humidity, 0 to 1.</summary>
    public double RelativeHumidity { get; }

    /// <summary>Air pressure, pascals.</summary>
    public double PressurePascals { get; }
}
