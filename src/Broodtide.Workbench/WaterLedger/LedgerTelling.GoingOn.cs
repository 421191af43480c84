using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Readings;
using Broodtide.Domain.Vessels;
using Broodtide.Units;

namespace Broodtide.Workbench.WaterLedger;

/// <content>Whether what was told stays as it was told when more is known.</content>
internal sealed partial class LedgerTelling
{
    private readonly Dictionary<VesselId, VesselBasis> _vessels = [];
    private readonly Dictionary<InstrumentId, Instrument> _instruments = [];

    /// <summary>
    /// Whether the account may be gone on with: what was told is the beginning of what is to be told, what follows comes
    /// after all of it, and neither a vessel nor an instrument nor a band it rests on has become another.
    /// </summary>
    public bool MayGoOn(LedgerScene scene, IReadOnlyList<Occurrence> occurrences)
    {
        if (_told.Count == 0 || occurrences.Count < _told.Count || scene.Now < _latest)
        {
            return false;
        }

        for (var at = 0; at < _told.Count; at++)
        {
            if (!ReferenceEquals(_told[at], occurrences[at]))
            {
                return false;
            }
        }

        return HearsOn(scene)
            && (occurrences.Count == _told.Count || occurrences[_told.Count].Happened.Earliest >= _latest)
            && _vessels.All(known => VesselBasis.Of(scene.House.Vessel(known.Key)).IsBeginningOf(known.Value))
            && _instruments.All(known => IsSame(known.Value, scene.House.Instrument(known.Key)))
            && _pages.Assumptions.All(assumed =>
                scene.Band(scene.House.Vessel(assumed.Vessel)) == assumed.Band
            );
    }

    private void See(LedgerScene scene)
    {
        _scene = scene;
        _pages.See(scene);
        foreach (var vessel in scene.Fills.Select(key => key.Vessel).Distinct())
        {
            _vessels[vessel] = VesselBasis.Of(scene.House.Vessel(vessel));
        }

        foreach (var instrument in scene.House.Instruments)
        {
            _instruments[instrument.Id] = instrument;
        }
    }

    private static bool IsSame(Instrument before, Instrument now) =>
        ReferenceEquals(before, now)
        || (before.Description == now.Description && before.Calibrations.SequenceEqual(now.Calibrations));

    /// <summary>What a ledger takes from a vessel.</summary>
    private sealed record VesselBasis(VesselRole? Role, Volume? Capacity, IReadOnlyList<Fill> Fills)
    {
        public static VesselBasis Of(Vessel vessel) => new(vessel.Role, vessel.Capacity, vessel.Fills);

        /// <summary>Whether all fills known before are there still, ended or not; the last may have gone on or ended.</summary>
        public bool IsBeginningOf(VesselBasis before)
        {
            if (before.Role != Role || before.Capacity != Capacity || before.Fills.Count > Fills.Count)
            {
                return false;
            }

            for (var number = 0; number < before.Fills.Count; number++)
            {
                var (was, stands) = (before.Fills[number], Fills[number]);
                if (
                    !ReferenceEquals(was, stands)
                    && (
                        was.Began != stands.Began
                        || (
                            was.Ended != stands.Ended
                            && (was.Ended is not null || number < before.Fills.Count - 1)
                        )
                    )
                )
                {
                    return false;
                }
            }

            return true;
        }
    }
}
