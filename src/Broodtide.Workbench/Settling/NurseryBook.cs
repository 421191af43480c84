using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Larvae;
using Broodtide.Workbench.Species;
using NodaTime;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Workbench.Settling;

/// <summary>Juveniles that came into a nursery.</summary>
/// <param name="When">When.</param>
/// <param name="From">Out of which larval vessel.</param>
/// <param name="Number">How many, if it was said.</param>
public sealed record CameHome(Happened When, VesselId From, int? Number);

/// <summary>A count of a nursery with what it says of those that were not seen.</summary>
/// <param name="When">When.</param>
/// <param name="Seen">How many were seen.</param>
/// <param name="Method">How.</param>
/// <param name="Lived">How many lived then: seen ones, and those that hide.</param>
public sealed record NurseryCount(Happened When, int Seen, CountMethod Method, Interval Lived);

/// <summary>Juveniles that left the house, their card's code, and what was heard of them since.</summary>
/// <param name="Entry">The entry that tells of it.</param>
/// <param name="Code">The code of their care card.</param>
/// <param name="When">When they left.</param>
/// <param name="From">Where they had lived.</param>
/// <param name="Number">How many.</param>
/// <param name="To">Who has them.</param>
/// <param name="Heard">What was heard, oldest first.</param>
public sealed record Gift(
    EntryId Entry,
    CareCode Code,
    Happened When,
    VesselId From,
    int Number,
    string? To,
    IReadOnlyList<(Happened When, SurvivalHeard Told)> Heard
);

/// <summary>What is known of the juveniles of one vessel: a total view of the journal.</summary>
/// <param name="Vessel">The nursery.</param>
/// <param name="Home">Those that came, oldest first.</param>
/// <param name="Counts">The counts, oldest first.</param>
/// <param name="Gifts">Those given away, oldest first.</param>
/// <param name="Alive">How many live there now; none where nothing tells.</param>
/// <param name="SurvivedShare">Share alive or given away of those that came; none where their number was not said.</param>
/// <param name="HatchedFrom">When the oldest of them hatched, at the earliest; none where it is not known.</param>
/// <param name="LengthMillimetres">What the profile's reports say of their length today; none where no report fits.</param>
/// <param name="AdultFrom">When they are adult by the profile; none where it tells nothing.</param>
public sealed record NurseryBook(
    VesselId Vessel,
    IReadOnlyList<CameHome> Home,
    IReadOnlyList<NurseryCount> Counts,
    IReadOnlyList<Gift> Gifts,
    Interval? Alive,
    Interval? SurvivedShare,
    Instant? HatchedFrom,
    (double Low, double High)? LengthMillimetres,
    (Instant Early, Instant Late)? AdultFrom
)
{
    /// <summary>The juveniles of a vessel; none where none ever came, were counted or left.</summary>
    /// <param name="house">What is known.</param>
    /// <param name="vessel">The vessel.</param>
    /// <param name="profile">The species.</param>
    /// <param name="now">The present.</param>
    public static NurseryBook? Of(House house, VesselId vessel, SpeciesProfile profile, Instant now)
    {
        var told = house
            .Account.About(Subject.Of(vessel))
            .Where(occurrence => occurrence.Happened.Latest <= now)
            .ToList();
        List<CameHome> home =
        [
            .. told.Where(it => it.Fact is JuvenilesReturned back && back.To == vessel)
                .Select(it => (it.Happened, Fact: (JuvenilesReturned)it.Fact))
                .Select(it => new CameHome(it.Happened, it.Fact.From, it.Fact.Number)),
        ];
        var gifts = GiftsFrom(told);
        int? came =
            home.Count > 0 && home.TrueForAll(it => it.Number is not null)
                ? home.Sum(it => it.Number!.Value)
                : null;
        var counts = told.Where(it => it.Fact is JuvenilesCounted)
            .Select(it => Counted(it, (JuvenilesCounted)it.Fact, home, gifts, came))
            .ToList();
        if (home.Count == 0 && counts.Count == 0 && gifts.Count == 0)
        {
            return null;
        }

        var alive = AliveNow(told, home, counts, gifts, came);
        var given = gifts.Sum(gift => gift.Number);
        var hatched = HatchedOf(house, home);
        return new(
            vessel,
            home,
            counts,
            gifts,
            alive,
            alive is { } live && came is > 0 and { } all ? Share(live, given, all) : null,
            hatched,
            hatched is { } born ? NurseryGrowth.LengthOn(profile, (now - born).TotalDays) : null,
            NurseryGrowth.AdultFrom(profile, home.Count > 0 ? home[0].When : null)
        );
    }

    /// <summary>All that left the house, oldest first.</summary>
    public static IReadOnlyList<Gift> GiftsOf(House house) =>
        [
            .. house
                .Vessels.SelectMany(vessel => GiftsFrom([.. house.Account.About(Subject.Of(vessel.Id))]))
                .OrderBy(gift => gift.When.Middle),
        ];

    private static List<Gift> GiftsFrom(IReadOnlyList<Occurrence> told)
    {
        var heard = told.Where(it => it.Fact is SurvivalHeard)
            .Select(it =>
                (
                    it.Happened,
                    Told: (SurvivalHeard)it.Fact,
                    Code: CareCode.Read(((SurvivalHeard)it.Fact).Card)
                )
            )
            .ToList();
        return
        [
            .. told.Where(it => it.Fact is JuvenilesGivenAway)
                .Select(it => (it, Fact: (JuvenilesGivenAway)it.Fact, Code: CareCode.Of(it.Id)))
                .Select(it => new Gift(
                    it.it.Id,
                    it.Code,
                    it.it.Happened,
                    it.Fact.Vessel,
                    it.Fact.Number,
                    it.Fact.To,
                    [.. heard.Where(back => back.Code == it.Code).Select(back => (back.Happened, back.Told))]
                )),
        ];
    }

    private static NurseryCount Counted(
        Occurrence occurrence,
        JuvenilesCounted counted,
        List<CameHome> home,
        List<Gift> gifts,
        int? came
    )
    {
        var seen = NurserySight.ShareSeen(counted.Method);
        var most = came is null
            ? double.PositiveInfinity
            : home.Where(it => it.When.Earliest <= occurrence.Happened.Latest).Sum(it => it.Number ?? 0)
                - gifts.Where(it => it.When.Latest < occurrence.Happened.Earliest).Sum(it => it.Number);
        most = Math.Max(most, counted.Number);
        double Lived(double share) => Math.Min(most, Math.Round(counted.Number / share));
        return new(
            occurrence.Happened,
            counted.Number,
            counted.Method,
            Interval.FromPoints(counted.Number, Lived(seen.Middle), Lived(seen.Low))
        );
    }

    private static Interval? AliveNow(
        IReadOnlyList<Occurrence> told,
        List<CameHome> home,
        List<NurseryCount> counts,
        List<Gift> gifts,
        int? came
    )
    {
        var since = counts.Count > 0 ? counts[^1].When.Latest : Instant.MinValue;
        double change =
            home.Where(it => it.When.Earliest > since).Sum(it => it.Number ?? 0)
            - gifts.Where(it => it.When.Earliest > since).Sum(it => it.Number)
            - told.Where(it => it.Fact is DeadRemoved && it.Happened.Earliest > since)
                .Sum(it => ((DeadRemoved)it.Fact).Number);
        double At(double number) => Math.Max(0, number + change);
        if (counts.Count > 0)
        {
            var lived = counts[^1].Lived;
            return Interval.FromPoints(At(lived.Low), At(lived.Middle), At(lived.High));
        }

        // Nobody counted: at most all that came, and how many died nobody knows.
        return came is null ? null : Interval.FromPoints(0, At(0) * NurserySight.UsualLeft, At(0));
    }

    private static Interval Share(Interval alive, int given, int came)
    {
        double Of(double number) => Math.Clamp((number + given) / came, 0, 1);
        return Interval.FromPoints(Of(alive.Low), Of(alive.Middle), Of(alive.High));
    }

    private static Instant? HatchedOf(House house, List<CameHome> home) =>
        home.SelectMany(it =>
                house
                    .Cohorts.Where(cohort => cohort.Groups.Any(group => group.Vessel == it.From))
                    .Select(cohort => cohort.Crossed)
                    .OfType<Happened>()
                    .Where(crossed => crossed.Earliest < it.When.Latest)
                    .Select(crossed => (Instant?)crossed.Earliest)
            )
            .Min();
}
