using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Units;
using NodaTime;

namespace Broodtide.Workbench.Recording;

/// <summary>One thing that is asked back, once, before a fact is stored.</summary>
/// <param name="Remark">What looks wrong, with its numbers.</param>
/// <param name="Field">The number it is about, as the fact names it; none for the time or a count.</param>
/// <param name="Likelier">The fact as it was more likely meant; none where nothing is likelier.</param>
/// <param name="LikelierWhen">The time as it was more likely meant; none where the time is not in question.</param>
public sealed record Question(
    Remark Remark,
    string? Field = null,
    Fact? Likelier = null,
    Happened? LikelierWhen = null
);

/// <summary>
/// Asks back what is improbable. Nothing is refused for it: confirmed, it is stored as typed, with its numbers
/// marked as doubted so that everything that is computed from them is told wider. What cannot be at all
/// (<see cref="Fact.Impossible"/>) is asked back too where it is a likely slip, so that the keeper is told what was
/// probably meant; as typed it is still no entry.
/// </summary>
public static class AskBack
{
    // The clock of another device may run a little ahead of this one's.
    private static readonly Duration ClockSlack = Duration.FromMinutes(5);

    /// <summary>What is asked back about a fact before it is stored.</summary>
    /// <param name="fact">The fact.</param>
    /// <param name="happened">When it happened.</param>
    /// <param name="house">What is known without it.</param>
    /// <param name="now">The device's clock.</param>
    /// <returns>The questions; none for what is as it usually is.</returns>
    public static IReadOnlyList<Question> For(Fact fact, Happened happened, House house, Instant now) =>
        [
            .. Times(fact, happened, now),
            .. NumberDoubts.Of(fact, happened, house),
            .. CountDoubts.Of(fact, happened, house),
        ];

    /// <summary>The fact as it is stored once the keeper stands by it: the numbers that were asked back are marked.</summary>
    /// <param name="fact">The fact as typed.</param>
    /// <param name="questions">What was asked back.</param>
    public static Fact AsTyped(Fact fact, IReadOnlyList<Question> questions) =>
        questions
            .Select(question => question.Field)
            .OfType<string>()
            .Aggregate(fact, (told, field) => told.WithNumber(field, n => n with { Doubted = true }));

    private static IEnumerable<Question> Times(Fact fact, Happened happened, Instant now)
    {
        // An absence may be written down before it begins.
        if (fact is KeeperLeft || happened.Earliest <= now + ClockSlack)
        {
            yield break;
        }

        var ahead = happened.Earliest - now;
        var back = Duration.FromDays(Math.Ceiling(ahead.TotalDays));
        yield return new(
            new Remark("time-in-the-future", new("happened", happened.Earliest), new("now", now)),
            LikelierWhen: ahead <= Duration.FromDays(7)
                ? Happened.Between(happened.Earliest - back, happened.Latest - back)
                : null
        );
    }
}
