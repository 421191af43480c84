using Broodtide.Units;

namespace Broodtide.Science.Development.Collecting;

/// <summary>One possibility for the hours ahead.</summary>
/// <param name="Weight">How much it is believed, not negative.</param>
/// <param name="Waiting">Larvae alive in the hatching box at the beginning, not negative.</param>
/// <param name="Hatching">Larvae that hatch in each slot, not negative.</param>
/// <param name="LossPerHour">Hazard in fresh water, per hour, not negative.</param>
public sealed record CollectingScenario(
    double Weight,
    double Waiting,
    IReadOnlyList<double> Hatching,
    double LossPerHour
);

/// <summary>
/// The hours ahead in slots of equal length, the moments between them at which someone can gather, and what may
/// happen. Moment 0 is the beginning, moment n the end of slot n.
/// </summary>
public sealed class CollectingScene
{
    /// <summary>A scene.</summary>
    /// <param name="slotHours">Length of a slot, hours, above 0, at most 2.</param>
    /// <param name="mayGather">For every moment, the beginning and the end included, whether someone can.</param>
    /// <param name="scenarios">What may happen; some weight above zero; every one with as many slots.</param>
    /// <param name="worthOfThoseLeft">
    /// What a larva alive in the box at the end is worth beside one gathered, 0 to 1: 0 where nobody comes again,
    /// 1 where the next gathering follows at once.
    /// </param>
    /// <exception cref="ArgumentException">Slots do not match, or nothing is possible.</exception>
    /// <exception cref="ArgumentOutOfRangeException">Outside the limits given.</exception>
    public CollectingScene(
        double slotHours,
        IReadOnlyList<bool> mayGather,
        IReadOnlyList<CollectingScenario> scenarios,
        double worthOfThoseLeft = 0
    )
    {
        SlotHours = Finite.Within(slotHours, 1e-3, 2);
        WorthOfThoseLeft = Finite.Within(worthOfThoseLeft, 0, 1);
        foreach (var scenario in scenarios)
        {
            Finite.NotNegative(scenario.Weight, nameof(scenarios));
            Finite.NotNegative(scenario.Waiting, nameof(scenarios));
            Finite.NotNegative(scenario.LossPerHour, nameof(scenarios));
            foreach (var hatching in scenario.Hatching)
            {
                Finite.NotNegative(hatching, nameof(scenarios));
            }
        }

        if (
            mayGather.Count < 2
            || !scenarios.Any(scenario => scenario.Weight > 0)
            || scenarios.Any(scenario => scenario.Hatching.Count != mayGather.Count - 1)
        )
        {
            throw new ArgumentException(
                "Every scenario needs one slot fewer than moments, and one of them a weight.",
                nameof(scenarios)
            );
        }

        MayGather = [.. mayGather];
        Scenarios = [.. scenarios];
    }

    /// <summary>Length of a slot, hours.</summary>
    public double SlotHours { get; }

    /// <summary>For every moment, whether someone can gather.</summary>
    public IReadOnlyList<bool> MayGather { get; }

    /// <summary>What may happen.</summary>
    public IReadOnlyList<CollectingScenario> Scenarios { get; }

    /// <summary>What a larva left alive at the end is worth.</summary>
    public double WorthOfThoseLeft { get; }

    /// <summary>The last moment.</summary>
    public int Last => MayGather.Count - 1;

    /// <summary>
    /// Larvae alive at each moment if all were gathered at one moment and none since; at that moment itself none.
    /// Before anything was gathered (-1) those waiting count.
    /// </summary>
    internal double[] Alive(CollectingScenario scenario, int gatheredAt)
    {
        var stays = Math.Exp(-scenario.LossPerHour * SlotHours);
        var arrives = CollectionYield.OfEvenHatching(scenario.LossPerHour, SlotHours);
        var alive = new double[MayGather.Count];
        var from = Math.Max(0, gatheredAt);
        alive[from] = gatheredAt < 0 ? scenario.Waiting : 0;
        for (var moment = from; moment < Last; moment++)
        {
            alive[moment + 1] = (alive[moment] * stays) + (scenario.Hatching[moment] * arrives);
        }

        return alive;
    }
}
