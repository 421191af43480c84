using Broodtide.Workbench.TideLine;

namespace Broodtide.Cli.Words;

/// <summary>The lines of a tide line in English.</summary>
internal sealed class TideSaying(Saying saying)
{
    public string Of(TideWord word) =>
        saying.Of(
            Saying.Key(word.Code),
            [
                new("number", Number(word)),
                new("chance", Saying.Percent(word.Chance ?? 0)),
                new("name", word.Name ?? "?"),
                new("where", word.Name is { } where ? $" in {where}" : ""),
                new("otherName", word.OtherName ?? "?"),
                new("mark", word.Mark is { } mark ? Saying.Of(mark) : "?"),
                new("limitPpt", word.LimitPpt ?? 0),
                new("way", word.TooSalt ? "too salty" : "too fresh"),
                new("days", Days(word)),
                new(
                    "stages",
                    string.Join(", ", word.Stages.Select(s => $"{s.Stage.Name} {Saying.Percent(s.Share)}"))
                ),
            ]
        );

    public string When(TideWord word) =>
        word.Tense switch
        {
            TideTense.Now => "now",
            TideTense.Expected => $"expected {saying.Day(word.At)}",
            _ when word.Until is { } until => saying.Time(Domain.Journal.Happened.Between(word.At, until)),
            _ => saying.Time(word.At),
        };

    private static string Number(TideWord word) =>
        word.Number is not { } number ? "an unknown number of"
        : word.Code is TideWordCode.NowSalinity or TideWordCode.DoesNotFit
            ? $"{Saying.Number(number.Middle)} ({Saying.Number(number.Low)} to {Saying.Number(number.High)})"
        : number.Width == 0 ? Whole(number.Middle)
        : word.Rough ? $"{Whole(number.Low)} to {Whole(number.High)}"
        : $"{Whole(number.Middle)} ({Whole(number.Low)} to {Whole(number.High)})";

    // Nobody has half a larva.
    private static string Whole(double count) => Saying.Number(Math.Round(count));

    private string Days(TideWord word) =>
        word.Days is { } days
            ? $"{saying.Day(days.Early)} to {saying.Day(days.Late)}, likely {saying.Day(days.Middle)}"
            : "?";
}
