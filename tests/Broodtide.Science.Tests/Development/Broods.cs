using Broodtide.Science.Development;
using Broodtide.Units;

namespace Broodtide.Science.Tests.Development;

/// <summary>Evidence for tests, in the fewest words.</summary>
internal static class Broods
{
    internal static EmbryoPrior Prior => ReferencePriors.ReferenceSpecies;

    internal static BroodEvidence Of(params BroodFact[] facts) =>
        new()
        {
            Facts = facts,
            Temperatures = [],
            Assumption = ReferencePriors.UncontrolledRoom,
        };

    internal static BroodEvidence Spawned(params BroodFact[] more) =>
        Of([new BroodFact.SeenEmpty(-1), new BroodFact.SeenBerried(0), .. more]);

    internal static BroodEvidence At(this BroodEvidence evidence, double celsius, int fromDay, int toDay) =>
        evidence with
        {
            Temperatures =
            [
                .. Enumerable
                    .Range(fromDay, toDay - fromDay + 1)
                    .Select(day => new FollowedTemperature(
                        day + 0.4,
                        Temperature.FromCelsius(celsius),
                        TemperatureDifference.FromCelsius(0.2)
                    )),
            ],
        };

    internal static BroodFact Eyed(double day) => new BroodFact.EggsLookedAt(day, true, null);

    internal static BroodFact NotEyed(double day) => new BroodFact.EggsLookedAt(day, false, null);

    internal static BroodFact Pale(double day) => new BroodFact.EggsLookedAt(day, null, true);
}
