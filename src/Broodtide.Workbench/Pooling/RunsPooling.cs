using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Science.Pooling;
using Broodtide.Science.Statistics;
using Broodtide.Units;
using Broodtide.Workbench.Species;
using NodaTime;
using Interval = Broodtide.Units.Interval;

namespace Broodtide.Workbench.Pooling;

/// <summary>Somebody else's journal, kept apart from the keeper's own.</summary>
/// <param name="From">Whose it is, as it is told.</param>
/// <param name="Account">What it says.</param>
/// <param name="ToldFor">The instant it is told for; the keeper's own present if none is said.</param>
/// <param name="Zone">The zone it is told in; the keeper's own if none is said.</param>
/// <param name="Broods">The broods that are heard of it; all if none are said.</param>
public sealed record OthersAccount(
    string From,
    Account Account,
    Instant? ToldFor = null,
    DateTimeZone? Zone = null,
    IReadOnlySet<BroodId>? Broods = null
);

/// <summary>What every run said of the numbers of a species.</summary>
/// <param name="Profile">The profile, the keeper's choices included.</param>
/// <param name="Published">The profile as published, with which the runs were asked.</param>
public sealed record RunsHeard(SpeciesProfile Profile, SpeciesProfile Published)
{
    internal RunsHeard(SpeciesProfile profile, SpeciesProfile published, IReadOnlyList<RunMessage> messages)
        : this(profile, published) => Messages = messages;

    internal IReadOnlyList<RunMessage> Messages { get; } = [];
}

/// <summary>
/// What a keeper's runs, and others' where they were taken in, say of the numbers of a species, and what the next run
/// is believed to bring. The published numbers stay: what is pooled is offered as a choice on top of them.
/// </summary>
/// <remarks>
/// The spread that a profile gives a number is both how little is known of the species and how much broods differ. It
/// is taken to be half and half: half of the variance for the mean, and a half normal curve for the deviation between
/// runs whose mean square is the other half. Then no run at all leaves the published spread as it was.
/// </remarks>
public static class RunsPooling
{
    private static readonly Probability NineInTen = Probability.FromFraction(0.9);

    // Of more runs than this each one moves next to nothing, and leaving each out once would take long.
    private const int MostLeftOutOnce = 40;

    /// <summary>The pooled numbers.</summary>
    /// <param name="outlook">The keeper's own house.</param>
    /// <param name="species">Code or name of the species; that of the house if none.</param>
    /// <param name="wishes">What shall be counted in.</param>
    /// <param name="others">Other keepers' journals.</param>
    public static IReadOnlyList<PooledNumber> Of(
        Outlook outlook,
        string? species,
        PoolingWishes wishes,
        IReadOnlyList<OthersAccount>? others = null
    ) => [.. Pool(InPieces(outlook, species, others).Last()!, wishes)];

    /// <summary>
    /// Hears every run, which takes long, in pieces: none at each pause, last what was heard. It can be pooled again and
    /// again with other wishes.
    /// </summary>
    public static IEnumerable<RunsHeard?> InPieces(
        Outlook outlook,
        string? species,
        IReadOnlyList<OthersAccount>? others = null
    )
    {
        var profile = outlook.Profiles.Of(species);
        var published = SpeciesProfiles.Find(profile.Code)!;
        var messages = new List<RunMessage>();
        IEnumerable<RunMessages> houses =
        [
            new(outlook, published, null, null),
            .. (others ?? []).Select(other => new RunMessages(
                Outlook.Of(other.Account, other.ToldFor ?? outlook.Now, other.Zone ?? outlook.Zone),
                published,
                other.From,
                other.Broods
            )),
        ];
        foreach (var house in houses)
        {
            foreach (var piece in house.InPieces())
            {
                if (piece is not null)
                {
                    messages.Add(piece);
                }

                yield return null;
            }
        }

        yield return new(profile, published, messages);
    }

    /// <summary>Pools what was heard, one number after the other as it is asked for.</summary>
    /// <param name="heard">What the runs said.</param>
    /// <param name="wishes">What shall be counted in.</param>
    public static IEnumerable<PooledNumber> Pool(RunsHeard heard, PoolingWishes wishes)
    {
        foreach (var number in LearnableNumber.All)
        {
            if (
                number.Belief(heard.Published) is { } belief
                && heard.Profile.Find(number.Code) is { } quantity
            )
            {
                yield return Of(
                    number,
                    quantity,
                    heard.Published,
                    belief,
                    [.. heard.Messages.Where(message => message.Number == number)],
                    wishes
                );
            }
        }
    }

    private static PooledNumber Of(
        LearnableNumber number,
        ProfileQuantity quantity,
        SpeciesProfile published,
        NormalBelief belief,
        List<RunMessage> messages,
        PoolingWishes wishes
    )
    {
        var sorted = messages.Select(message => (Message: message, LeftOut: OutOf(message, wishes))).ToList();
        var counted = sorted.Where(pair => pair.LeftOut is LeftOut.No).Select(pair => pair.Message).ToList();
        var next = counted.Count == 0 ? belief.ToInterval() : Next(belief, counted);
        var between = counted.Count == 0 ? 0 : Between(belief, counted);
        var weights =
            (2 / (belief.StandardDeviation * belief.StandardDeviation))
            + counted.Sum(message => 1 / (message.Effect.Variance + between));
        return new()
        {
            Quantity = quantity,
            Published = number.Scale.From(belief.ToInterval()),
            Runs =
            [
                .. sorted.Select(pair => new RunSays(
                    pair.Message.Source,
                    number.Scale.From(
                        Interval.FromNormal(
                            pair.Message.Effect.Estimate,
                            Math.Sqrt(pair.Message.Effect.Variance)
                        )
                    ),
                    pair.LeftOut,
                    pair.LeftOut is LeftOut.No ? 1 / (pair.Message.Effect.Variance + between) / weights : 0,
                    pair.LeftOut is LeftOut.No && counted.Count <= MostLeftOutOnce
                        ? number.Scale.From(
                            Next(belief, [.. counted.Where(message => message != pair.Message)])
                        )
                        : null
                )),
            ],
            Next = number.Scale.From(next),
            Alone = counted.Count < 3 ? null : Alone(number.Scale, counted),
            Choice = counted.Count == 0 ? [] : number.Choice(published, number.Scale.From(next)),
            WidthRatio = next.Width / belief.ToInterval().Width,
        };
    }

    private static LeftOut OutOf(RunMessage message, PoolingWishes wishes) =>
        wishes.Without.Contains(message.Source.Key) ? LeftOut.ByWish
        : message.Doubt is LeftOut.Mixed && wishes.WithMixed ? LeftOut.No
        : message.Doubt is LeftOut.UnderWay && wishes.WithUnderWay ? LeftOut.No
        : message.Doubt;

    private static Interval Next(NormalBelief belief, List<RunMessage> counted) =>
        counted.Count == 0 ? belief.ToInterval() : Pooled(belief, counted).Next;

    // The variance between runs that the pooled belief amounts to, for telling weights.
    private static double Between(NormalBelief belief, List<RunMessage> counted)
    {
        var pooled = Pooled(belief, counted);
        var mean = pooled.Mean.Width / (2 * Interval.StandardNormal95);
        var (_, deviation) = pooled.NextMoments;
        return Math.Max(0, (deviation * deviation) - (mean * mean));
    }

    private static FewRuns Pooled(NormalBelief belief, List<RunMessage> counted)
    {
        var half = belief.StandardDeviation / Math.Sqrt(2);
        return FewRuns.Of(
            [.. counted.Select(message => message.Effect)],
            half,
            new NormalBelief(belief.Mean, half)
        );
    }

    private static RunsAlone Alone(PoolScale scale, List<RunMessage> counted)
    {
        var runs = PooledRuns.Of([.. counted.Select(message => message.Effect)]);
        var (mean, next) = (runs.MeanWithin(NineInTen), runs.Next(NineInTen));
        return new(
            scale.From(Interval.FromPoints(mean.Lower, runs.Mean, mean.Upper)),
            scale.From(Interval.FromPoints(next.Lower, runs.Mean, next.Upper)),
            runs.ShareBetween
        );
    }
}
