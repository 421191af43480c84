using Broodtide.Domain;
using Broodtide.Workbench.Safety.Advising;
using Broodtide.Workbench.Safety.Mending;

namespace Broodtide.Workbench;

public sealed partial class Outlook
{
    private readonly Dictionary<VesselId, Piecewise<Mend>> _mends = [];
    private readonly Dictionary<VesselId, Piecewise<AdviceOfDay>> _advice = [];

    /// <summary>
    /// What brings a vessel's water back, run forward; none where nothing is to be mended, or nothing that can be done helps.
    /// </summary>
    public Mend? MendOf(VesselId vessel) => SafetyOf(vessel) is null ? null : Mending(vessel).Value;

    /// <summary>The same, if it is worked out already.</summary>
    public Mend? MendAtHand(VesselId vessel) =>
        _mends.GetValueOrDefault(vessel) is { IsDone: true } done ? done.Value : null;

    /// <summary>What is advised for a vessel today; none where its water is not told or no larvae are minded.</summary>
    public AdviceOfDay? AdviceOf(VesselId vessel) => SafetyOf(vessel) is null ? null : Advising(vessel).Value;

    /// <summary>The same, if it is worked out already.</summary>
    public AdviceOfDay? AdviceAtHand(VesselId vessel) =>
        _advice.GetValueOrDefault(vessel) is { IsDone: true } done ? done.Value : null;

    /// <summary>The pieces of a vessel's safety, mend and advice, for who may not be held up.</summary>
    public IEnumerable<Action> AdviceSteps(VesselId vessel)
    {
        foreach (var step in SafetySteps(vessel))
        {
            yield return step;
        }

        if (SafetyAtHand(vessel) is null)
        {
            yield break;
        }

        foreach (var step in InPieces(Mending(vessel)))
        {
            yield return step;
        }

        foreach (var step in InPieces(Advising(vessel)))
        {
            yield return step;
        }
    }

    private Piecewise<Mend> Mending(VesselId vessel)
    {
        if (!_mends.TryGetValue(vessel, out var work))
        {
            var safety = SafetyOf(vessel)!;
            var hour = safety.Run?.Story.Scene.Hours[safety.Run.Story.NowHour];
            _mends[vessel] = work = new(() =>
                hour is { } now
                    ? VesselMending.InPieces(
                        safety,
                        Profiles.Of(House.Vessel(vessel)),
                        NewWater.For(this, now.Salinity, now.Temperature.Celsius)
                    )
                    : []
            );
        }

        return work;
    }

    private Piecewise<AdviceOfDay> Advising(VesselId vessel)
    {
        if (!_advice.TryGetValue(vessel, out var work))
        {
            var safety = SafetyOf(vessel)!;
            _advice[vessel] = work = new(() =>
                LedgerOf(vessel) is { } ledger ? DailyAdvising.InPieces(this, safety, ledger) : []
            );
        }

        return work;
    }
}
