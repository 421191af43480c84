using Broodtide.Domain;
using Broodtide.Domain.Broods;
using Broodtide.Domain.Keeping;
using Broodtide.Units;
using Broodtide.Workbench.Adults;
using Broodtide.Workbench.Species;
using NodaTime;

namespace Broodtide.Workbench.Losses;

/// <summary>What may be said of the larvae of a run.</summary>
public enum LossVerdict
{
    /// <summary>Larvae never came, or none of them crossed.</summary>
    BeforeTheSea,

    /// <summary>She still carries, or larvae hatched less than the lethal wait ago: nothing is lost yet.</summary>
    NothingLostYet,

    /// <summary>
    /// Settlement may still come: few seen is not all dead, whatever anybody wrote. The vessel is left standing.
    /// </summary>
    NotYet,

    /// <summary>
    /// Settlement might still have come, but the water they lived in stands no more: whether some lived nobody can say.
    /// </summary>
    NoVesselStands,

    /// <summary>The latest day of settlement has passed and nobody saw any: the run may be closed.</summary>
    PastTheLatestDay,

    /// <summary>Settled ones were seen: it is no loss.</summary>
    SomeSettled,
}

/// <summary>Something the journal shows, and how far it lies beyond what is held for good.</summary>
/// <param name="Ratio">1 is the limit; more is beyond. Below 1 it is not shown, only not excluded.</param>
/// <param name="Shown">What was, with its limit.</param>
/// <param name="Change">What to do otherwise.</param>
public sealed record LossSuspect(double Ratio, Remark Shown, Remark Change)
{
    /// <summary>Whether it lies beyond its limit.</summary>
    public bool IsShown => Ratio >= 1;
}

/// <summary>
/// What to do after a loss: what to keep, what to clean, when she may carry again, and one thing to change. It tells what the
/// journal shows, never a cause, and never that all are dead before the latest day of settlement has passed.
/// </summary>
public sealed record AfterLoss
{
    /// <summary>The run.</summary>
    public required RunId Run { get; init; }

    /// <summary>What may be said of the larvae.</summary>
    public required LossVerdict Verdict { get; init; }

    /// <summary>The latest day on which settlement is still to be reckoned with; none where nothing crossed.</summary>
    public required Instant? LatestSettlement { get; init; }

    /// <summary>What to keep, the first first.</summary>
    public required IReadOnlyList<Remark> Keep { get; init; }

    /// <summary>What to reset and clean, and what to mind.</summary>
    public required IReadOnlyList<Remark> Clean { get; init; }

    /// <summary>When the female may carry again; none where she is not known.</summary>
    public required CarryAgain? Female { get; init; }

    /// <summary>Whether what they stood in may be cleaned: nobody lives in it and nothing can settle any more.</summary>
    public required bool MayClean { get; init; }

    /// <summary>The one thing to do otherwise.</summary>
    public required LossSuspect OneThing { get; init; }

    /// <summary>What else the journal shows or cannot exclude, the farthest beyond its limit first.</summary>
    public required IReadOnlyList<LossSuspect> Others { get; init; }

    /// <summary>The answer for a run; none where it has no brood.</summary>
    /// <param name="outlook">What is known.</param>
    /// <param name="run">The run, over or not.</param>
    public static AfterLoss? Of(Outlook outlook, Run run)
    {
        if (run.Brood is not { } id)
        {
            return null;
        }

        var brood = outlook.House.Brood(id);
        var profile = outlook.Profiles.Of(id);
        var latest = LatestDay.Of(outlook, id, profile);
        var waters = LossWaters.Of(outlook, id);
        var verdict = VerdictOf(outlook, run, brood, profile, latest, waters.Stands);
        var mayClean = verdict is not LossVerdict.NothingLostYet && waters.MayClean(outlook.Now);
        var day = waters.Latest?.InZone(outlook.Zone).Date;
        var suspects = LossSuspects.Of(outlook, run, brood, profile);
        return new()
        {
            Run = run.Id,
            Verdict = verdict,
            LatestSettlement = latest,
            Keep = [.. KeepOf(verdict, waters, day)],
            Clean = [.. CleanOf(mayClean, waters, outlook.Now, day)],
            MayClean = mayClean,
            Female = brood.Animal is { } animal ? outlook.CarryAgainOf(outlook.House.Animal(animal)) : null,
            OneThing = suspects[0],
            Others = [.. suspects.Skip(1)],
        };
    }

    private static LossVerdict VerdictOf(
        Outlook outlook,
        Run run,
        Brood brood,
        SpeciesProfile profile,
        Instant? latest,
        bool stands
    ) =>
        latest is not { } last
            ? IsNothingLostYet(outlook, run, brood, profile)
                ? LossVerdict.NothingLostYet
                : LossVerdict.BeforeTheSea
            : LossSuspects.SawSettled(outlook.House, brood.Id, outlook.Now)
                ? LossVerdict.SomeSettled
                : outlook.Now > last
                    ? LossVerdict.PastTheLatestDay
                    : stands
                        ? LossVerdict.NotYet
                        : LossVerdict.NoVesselStands;

    // As long as the run is open: she lives and carries, or the last larvae are younger than the lethal wait.
    private static bool IsNothingLostYet(Outlook outlook, Run run, Brood brood, SpeciesProfile profile)
    {
        if (run.Ended is not null)
        {
            return false;
        }

        var last = brood
            .Hatching.Concat(brood.Gatherings.Select(gathering => gathering.When))
            .Select(when => (Instant?)when.Latest)
            .Max();
        if (last is { } hatched)
        {
            return outlook.Now < hatched + profile.LarvaFreshWaterLethal;
        }

        return brood.Animal is { } id
            && outlook.House.Animal(id) is var mother
            && (mother.Died is not { } died || died.Latest > outlook.Now)
            && FemaleHistory.EndOf(outlook.House, mother, brood, outlook.Now).End is ClutchEnd.Carried;
    }

    private static IEnumerable<Remark> KeepOf(LossVerdict verdict, LossWaters waters, LocalDate? latest)
    {
        if (verdict is LossVerdict.NotYet && latest is { } last)
        {
            yield return new Remark("keep-the-vessel-standing", new Argument("latest", last));
        }
        else if (verdict is LossVerdict.SomeSettled && waters.Stands)
        {
            yield return new Remark("keep-the-vessel-they-live");
        }

        yield return new Remark("keep-photos-first");
        if (verdict is not LossVerdict.NothingLostYet)
        {
            yield return new Remark("keep-some-in-alcohol");
        }

        yield return new Remark("keep-a-bottle-of-water");
        yield return new Remark("keep-write-it-down-today");
    }

    private static IEnumerable<Remark> CleanOf(
        bool mayClean,
        LossWaters waters,
        Instant now,
        LocalDate? latest
    )
    {
        if (waters.Latest >= now && latest is { } last)
        {
            yield return new Remark("clean-not-before", new Argument("latest", last));
        }

        if (waters.AnyLive)
        {
            yield return new Remark("clean-not-while-they-live");
        }

        yield return new Remark("clean-tools-apart");
        if (mayClean)
        {
            yield return new Remark("clean-bleach-and-test");
            yield return new Remark("clean-dry-for-days");
        }

        yield return new Remark("clean-look-at-cultures");
        yield return new Remark("clean-water-not-into-nature");
    }
}
