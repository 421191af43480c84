using Broodtide.Phone.Language;
using Broodtide.Science.Heat;

namespace Broodtide.Phone.Pages.BadDays;

/// <summary>Hours until a limit, in words: the middle, the two ends and the chance.</summary>
internal static class Hours
{
    // Under one chance in twenty nothing more is said.
    private const double Hardly = 0.05;

    public static string Of(FirstPassage passage, Words words, Formats formats)
    {
        return passage.Chance.Value < Hardly
                ? words[
                    "bad.hours.not",
                    formats.Plain(passage.HorizonHours, 0),
                    formats.Share(passage.Chance)
                ]
            : passage.MiddleHours is null
                ? words[
                    "bad.hours.maybe",
                    formats.Plain(passage.HorizonHours, 0),
                    Told(passage.EarlyHours),
                    formats.Share(passage.Chance)
                ]
            : words[
                "bad.hours",
                Told(passage.MiddleHours),
                Told(passage.EarlyHours),
                Told(passage.LateHours),
                formats.Share(passage.Chance)
            ];

        string Told(double? hours) =>
            hours is { } known ? formats.Plain(known, known < 10 ? 1 : 0) : words["bad.later"];
    }
}
