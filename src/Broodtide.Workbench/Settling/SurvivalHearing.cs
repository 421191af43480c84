using Broodtide.Domain;
using Broodtide.Domain.Larvae;
using Broodtide.Units;
using NodaTime;

namespace Broodtide.Workbench.Settling;

/// <summary>What was told of given juveniles, held against the journal before it is written.</summary>
public static class SurvivalHearing
{
    /// <summary>The fact to write and when it holds, or why it does not fit.</summary>
    /// <param name="house">What is known.</param>
    /// <param name="told">What came.</param>
    /// <param name="now">The present.</param>
    /// <param name="zone">The keeper's zone.</param>
    public static Parsed<Hearing> Hear(House house, SurvivalTold told, Instant now, DateTimeZone zone)
    {
        var gift = NurseryBook.GiftsOf(house).FirstOrDefault(it => it.Code == told.Card);
        if (gift is null)
        {
            return No("survival-code-of-no-card", new Argument("card", told.Card.Text));
        }

        // A day is whole: it may begin before they left on it, and end a little after now elsewhere.
        var day = told.On.AtStartOfDayInZone(zone).ToInstant();
        var ends = told.On.PlusDays(1).AtStartOfDayInZone(zone).ToInstant();
        if (ends < gift.When.Earliest || day > now + Duration.FromDays(1))
        {
            return No(
                "survival-day-not-since",
                new("day", told.On.ToString()),
                new("given", gift.When.Middle)
            );
        }

        if (told.Alive > gift.Number && told.Received is null)
        {
            return No("survival-more-than-given", new("alive", told.Alive), new("number", gift.Number));
        }

        if (
            gift.Heard.Any(heard =>
                heard.Told.Alive == told.Alive
                && heard.Told.Received == told.Received
                && heard.When.Middle >= day
                && heard.When.Middle <= ends
            )
        )
        {
            return No("survival-heard-already", new Argument("card", told.Card.Text));
        }

        var noon = Instant.Min(now, Instant.Max(gift.When.Latest, day + Duration.FromHours(12)));
        return Parsed<Hearing>.Of(
            new(
                gift,
                new SurvivalHeard(gift.From, gift.Code.Text, told.Alive, told.Received, told.Note),
                noon,
                told.Received is { } came && came != gift.Number
                    ? new Remark("survival-other-number", new("received", came), new("number", gift.Number))
                    : null
            )
        );
    }

    private static Parsed<Hearing> No(string code, params ReadOnlySpan<Argument> arguments) =>
        Parsed<Hearing>.No(code, arguments);
}

/// <summary>A hearing that fits.</summary>
/// <param name="Gift">Of which juveniles.</param>
/// <param name="Fact">What to write.</param>
/// <param name="At">When it holds.</param>
/// <param name="Doubt">What does not agree; none where all does.</param>
public sealed record Hearing(Gift Gift, SurvivalHeard Fact, Instant At, Remark? Doubt);
