using Broodtide.Cli.Door;
using Broodtide.Cli.Words;
using Broodtide.Storage;
using Broodtide.Workbench;
using Broodtide.Workbench.Sensors;

namespace Broodtide.Cli.Sensors;

/// <summary>What the sensors' file beside the journal tells, for whatever is computed of the house.</summary>
internal static class SensorsBeside
{
    /// <summary>
    /// Everything of the sensors; none where no file lies beside the journal. A file that cannot be read is said, and
    /// holds up nothing: the journal does not need it.
    /// </summary>
    public static async Task<SensorsSeen?> OfAsync(Sitting sitting, Outlook alone)
    {
        try
        {
            await using var store = SensorsVerb.Open(sitting);
            return store is null
                ? null
                : await SensorsTelling.OfAsync(
                    store,
                    await SensorJudging.OfAsync(store, alone, sitting.Cancellation),
                    sensor => DefaultLimits.Of(alone.House, alone.Profiles, sensor),
                    SensorsSurroundings.None,
                    sitting.Now,
                    sitting.Cancellation
                );
        }
        catch (StoreUnusableException broken)
        {
            sitting.Surroundings.Error.WriteLine(new Saying(sitting.Zone, alone.House).Of(broken.Reason));
            return null;
        }
    }
}
