using Broodtide.Units;

namespace Broodtide.Science.Development;

/// <summary>A reading of the temperature that the animal lived at.</summary>
/// <param name="Day">When, days from the caller's origin.</param>
/// <param name="Temperature">The reading, -5 to 50 degC.</param>
/// <param name="Error">Standard deviation of the reading's own error, 0 to 20 degC.</param>
public readonly record struct FollowedTemperature(
    double Day,
    Temperature Temperature,
    TemperatureDifference Error
);

/// <summary>
/// What is assumed about the temperature where there are no readings, past or future. Readings overrule it: the
/// level is learned from them, and between and after them the temperature wanders about that level.
/// </summary>
public sealed record TemperatureAssumption
{
    /// <summary>The assumed level.</summary>
    public required Temperature Mean { get; init; }

    /// <summary>Standard deviation of the level, which holds for the whole time, degC, 0 to 15.</summary>
    public required TemperatureDifference Sd { get; init; }

    /// <summary>
    /// Standard deviation of the slow wandering about the level (weather, heating), degC. An assumption.
    /// </summary>
    public TemperatureDifference Wander { get; init; } = TemperatureDifference.FromCelsius(1.0);

    /// <summary>Days in which the wandering forgets itself (1/e). An assumption.</summary>
    public double WanderDays { get; init; } = 6;

    /// <summary>
    /// Standard deviation of an error shared by all readings (a thermometer that reads high, a sensor away from the
    /// animal), degC. An assumption; cheap aquarium thermometers are commonly half a degree off.
    /// </summary>
    public TemperatureDifference SharedError { get; init; } = TemperatureDifference.FromCelsius(0.5);

    /// <summary>
    /// Standard deviation of one reading against the mean of its day (day and night, stirring), degC. An assumption.
    /// </summary>
    public TemperatureDifference WithinDay { get; init; } = TemperatureDifference.FromCelsius(0.5);

    internal void Check()
    {
        Finite.Within(Mean.Celsius, -5, 50);
        Finite.Within(Sd.Celsius, 0, 15);
        Finite.Within(Wander.Celsius, 0, 15);
        Finite.Within(WanderDays, 0.1, 365);
        Finite.Within(SharedError.Celsius, 0, 10);
        Finite.Within(WithinDay.Celsius, 0, 10);
    }
}

/// <summary>
/// All that is known of one brood. The order of the lists does not matter.
/// </summary>
public sealed record BroodEvidence
{
    /// <summary>What was seen; at least one fact that shows eggs or larvae.</summary>
    public required IReadOnlyList<BroodFact> Facts { get; init; }

    /// <summary>The temperatures that followed the animal; may be empty.</summary>
    public required IReadOnlyList<FollowedTemperature> Temperatures { get; init; }

    /// <summary>What is assumed where no temperature is known.</summary>
    public required TemperatureAssumption Assumption { get; init; }

    /// <summary>
    /// Whether the eggs may have any age, as on a female bought berried. Where a look at the empty female is known
    /// it bounds the age all the same.
    /// </summary>
    public bool AgeUnknown { get; init; }

    /// <summary>
    /// Where midnight lies on the caller's axis of days, 0 to 1: 0 if whole days begin at midnight, 0.5 if they begin
    /// at noon. None if unknown: then every hour is equally likely.
    /// </summary>
    public double? MidnightPhase { get; init; }

    /// <summary>The facts in their one order, checked.</summary>
    /// <exception cref="InvalidOperationException">No fact shows eggs or larvae.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A number is not finite or outside its range.</exception>
    internal BroodFact[] OrderedFacts()
    {
        Assumption.Check();
        if (MidnightPhase is { } phase)
        {
            Finite.Within(phase, 0, 1);
        }

        foreach (var fact in Facts)
        {
            fact.Check();
        }

        if (!Facts.Any(fact => fact is not BroodFact.SeenEmpty))
        {
            throw new InvalidOperationException("A forecast needs a fact that shows eggs or larvae.");
        }

        return [.. Facts.OrderBy(f => f.Day).ThenBy(f => f.Rank).ThenBy(f => f.LastDay)];
    }
}
