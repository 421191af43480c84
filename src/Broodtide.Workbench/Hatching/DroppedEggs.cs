using System.Collections.Immutable;
using Broodtide.Domain.Broods;
using Broodtide.Domain.Journal;
using Broodtide.Units;
using Broodtide.Workbench.Planning;
using Broodtide.Workbench.Species;
using NodaTime;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Workbench.Hatching;

/// <summary>Whether eggs off their mother are worth the work.</summary>
public enum EggWorth
{
    /// <summary>More than half are expected to hatch.</summary>
    Worth,

    /// <summary>A third or more.</summary>
    Try,

    /// <summary>Less than a third; most mould.</summary>
    Hardly,

    /// <summary>Nothing was measured in this species: it cannot be told, and costs little to try.</summary>
    Unknown,
}

/// <summary>Eggs off their mother: is it worth it, what they want, when they hatch.</summary>
public sealed record DroppedEggs
{
    /// <summary>The brood.</summary>
    public required BroodForecast Forecast { get; init; }

    /// <summary>When they came off.</summary>
    public required Instant Since { get; init; }

    /// <summary>Whether she still carries them, and it is told as if they came off now.</summary>
    public required bool IsSupposed { get; init; }

    /// <summary>Share of the eggs' development that was over when they came off, 0 to 1.</summary>
    public required Interval DevelopedShare { get; init; }

    /// <summary>Share of the eggs that hatch, 0 to 1; none where the species' profile has no figures.</summary>
    public required Interval? HatchingShare { get; init; }

    /// <summary>Share that hatches on the mother, for comparison.</summary>
    public ProfileQuantity? OnMother { get; init; }

    /// <summary>Larvae to expect of eggs that were counted; none where nobody counted.</summary>
    public Interval? Larvae { get; init; }

    /// <summary>Whether it is worth it.</summary>
    public required EggWorth Worth { get; init; }

    /// <summary>Warmest water that was seen to do no harm, degC; none where the profile has none.</summary>
    public ProfileQuantity? WarmestWithoutLoss { get; init; }

    /// <summary>The hours of the day at which to gather once hatching is near.</summary>
    public required ImmutableArray<LocalTime> GatherAt { get; init; }

    /// <summary>What to do, first things first.</summary>
    public required ImmutableArray<Remark> First { get; init; }

    /// <summary>What to mind.</summary>
    public required ImmutableArray<CautionCode> Cautions { get; init; }

    /// <summary>What is supposed.</summary>
    public required ImmutableArray<Remark> Assumed { get; init; }

    // Between its two measured ends the share may rise early or late: nothing between was read.
    private const double RisesEarly = 0.5;
    private const double AtCleavage = 0.1;
    private const double AtLast = 0.9;

    private const double Good = 0.5;
    private const double Poor = 1.0 / 3;

    /// <summary>
    /// The eggs of a brood, as if they came off now where she still carries them; none where no eggs were ever seen.
    /// </summary>
    /// <param name="outlook">What is known.</param>
    /// <param name="brood">The brood.</param>
    /// <param name="hours">The hours at which nobody can; asleep from 23 to 7 if left out.</param>
    public static DroppedEggs? Of(Outlook outlook, Domain.BroodId brood, KeeperHours? hours = null)
    {
        var view = outlook.House.Brood(brood);
        if (outlook.ForecastOf(brood) is not { } forecast)
        {
            return null;
        }

        var dropped = view.Dropped ?? Happened.At(outlook.Now);
        var profile = outlook.Profiles.Of(brood);
        var developed = Developed(view, forecast, dropped, profile);
        var share = ShareAt(profile, developed);
        var number = outlook
            .House.Account.About(Subject.Of(brood))
            .Select(told => told.Fact)
            .OfType<EggsDropped>()
            .Sum(fact => fact.Number ?? 0);
        var worth =
            share is not { } told ? EggWorth.Unknown
            : told.Middle >= Good ? EggWorth.Worth
            : told.Middle >= Poor ? EggWorth.Try
            : EggWorth.Hardly;
        var warmest = profile.Find("embryo-warmest-without-loss");
        return new()
        {
            Forecast = forecast,
            Since = dropped.Middle,
            IsSupposed = view.Dropped is null,
            DevelopedShare = developed,
            HatchingShare = share,
            OnMother = profile.Find("hatched-share-on-female"),
            Larvae = number > 0 && share is { } hatching ? hatching.Scaled(number) : null,
            Worth = worth,
            WarmestWithoutLoss = warmest,
            GatherAt = GatherTimes(hours ?? KeeperHours.Usual),
            First = [.. FirstOf(view, warmest)],
            Cautions = [CautionCode.MainsBesideSaltWater],
            Assumed = [.. AssumedOf(profile, share, number, view)],
        };
    }

    /// <summary>
    /// Share of eggs that hatch off their mother by how far they had developed: early ones as cleaving eggs, late ones as
    /// those in their last stage, and in between anything that rises from one to the other.
    /// </summary>
    /// <param name="profile">The species.</param>
    /// <param name="developed">Share of the development that was over, 0 to 1.</param>
    /// <returns>None where the profile lacks the two figures.</returns>
    public static Interval? ShareAt(SpeciesProfile profile, Interval developed)
    {
        if (
            profile.Find("hatched-share-removed-cleavage") is not { Value: { } early } first
            || profile.Find("hatched-share-removed-late") is not { Value: { } late } last
        )
        {
            return null;
        }

        var (earlyLow, earlyHigh) = (first.Low ?? early, first.High ?? early);
        var (lateLow, lateHigh) = (last.Low ?? late, last.High ?? late);
        var low = Rise(developed.Low, RisesEarly, AtLast, earlyLow, lateLow);
        var middle = Rise(developed.Middle, AtCleavage, AtLast, early, late);
        var high = Rise(developed.High, AtCleavage, RisesEarly, earlyHigh, lateHigh);
        return Interval.FromPoints(Math.Min(low, middle), middle, Math.Max(high, middle));
    }

    private static double Rise(double at, double from, double to, double low, double high) =>
        low + ((high - low) * Math.Clamp((at - from) / (to - from), 0, 1));

    private static Interval Developed(
        Brood brood,
        BroodForecast forecast,
        Happened dropped,
        SpeciesProfile profile
    )
    {
        var (early, middle, late) = forecast.Spawning;
        double Share(Instant spawned, Instant hatches) =>
            hatches > spawned
                ? Math.Clamp((dropped.Middle - spawned).TotalDays / (hatches - spawned).TotalDays, 0, 1)
                : 1;
        var told = Share(middle, forecast.Median);
        var low = Math.Min(told, Share(late, forecast.Window90.To));
        var high = Math.Max(told, Share(early, forecast.Window90.From));
        // Eyes that were seen before they came off bound it from below.
        if (brood.Looks.Any(look => look.Seen.Eyed is true && look.When.Earliest <= dropped.Latest))
        {
            var eyed = profile.HatchSigns.EyedShareLow;
            (low, told, high) = (Math.Max(low, eyed), Math.Max(told, eyed), Math.Max(high, eyed));
        }

        return Interval.FromPoints(low, told, high);
    }

    // Morning, after work, before bed: of every eight hours one that somebody can (practice: three times a day).
    private static ImmutableArray<LocalTime> GatherTimes(KeeperHours hours) =>
        [
            .. new[] { new LocalTime(7, 0), new LocalTime(14, 0), new LocalTime(22, 0) }
                .Select(wished =>
                    Enumerable
                        .Range(0, 16)
                        .SelectMany(half =>
                            new[] { wished.PlusMinutes(30 * half), wished.PlusMinutes(-30 * half) }
                        )
                        .FirstOrDefault(hours.Able, wished)
                )
                .Distinct()
                .Order(),
        ];

    private static IEnumerable<Remark> FirstOf(Brood brood, ProfileQuantity? warmest)
    {
        if (brood.DroppedIn is not { } vessel)
        {
            yield return new Remark("eggs-need-a-vessel");
        }
        else
        {
            yield return new Remark("eggs-lie-in", new Argument("vessel", vessel));
        }

        yield return new Remark("eggs-tumble");
        yield return new Remark("eggs-pick-out");
        yield return new Remark("eggs-look-twice");
        if (warmest is { Value: { } celsius })
        {
            yield return new Remark("eggs-not-warmer", new Argument("celsius", celsius));
        }
        else
        {
            yield return new Remark("eggs-not-warmer-than-she-lived");
        }

        yield return new Remark("eggs-change-water");
        yield return new Remark("eggs-gather");
        yield return new Remark("eggs-cross-at-once");
    }

    private static IEnumerable<Remark> AssumedOf(
        SpeciesProfile profile,
        Interval? share,
        int number,
        Brood brood
    )
    {
        yield return share is null
            ? new Remark("eggs-share-unknown")
            : new Remark(
                "eggs-share-between-two",
                new("chanceEarly", profile.Find("hatched-share-removed-cleavage")!.Value!.Value),
                new("chanceLate", profile.Find("hatched-share-removed-late")!.Value!.Value)
            );
        if (brood.HatchingOver is not null)
        {
            yield return new Remark("eggs-hatching-over");
        }

        if (brood.Dropped is null)
        {
            yield return new Remark("eggs-supposed-off-now");
        }
        else if (number == 0)
        {
            yield return new Remark("eggs-not-counted");
        }

        yield return new Remark("eggs-forecast-as-on-her");
    }
}
