using System.Net;
using System.Text;
using Broodtide.Cli.Ahead;
using Broodtide.Cli.Door;
using Broodtide.Cli.Words;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Vessels;
using Broodtide.Workbench;
using Broodtide.Workbench.BadDays;
using NodaTime.Text;

namespace Broodtide.Cli.BadDays;

/// <summary>The sheet for whoever looks after the animals, as one page that needs nothing else: to print.</summary>
internal static class HelperSheet
{
    private static readonly string[] Normal =
    [
        "Slow single bubbles. Larvae hang in the water, head down, in small clouds.",
        "Water at the line: fill up to it, no further.",
        "Few seen is not many dead: they are as small as a comma and clear as glass.",
    ];

    private static readonly string[] Not =
    [
        "No food beyond the box of the day, even if they look hungry.",
        "No hot tap water, no soap, no spray, no plant feed, no copper.",
        "Nothing from one vessel into another: no water, no net, no animal.",
        "Throw nothing away, even if all look dead. Never into nature.",
        "No hands in the water while heater or lamp hangs in it: pull the plug first.",
        "No switching off of pumps, not even at night.",
    ];

    public static string Of(AwayPlan plan, Outlook outlook, Naming naming, ActionWords words)
    {
        var page = new StringBuilder();
        page.Append(
                "<!doctype html>\n<html lang=\"en\"><head><meta charset=\"utf-8\">\n<title>Helper’s sheet</title>\n"
                    + "<style>body{font:11pt/1.4 sans-serif;max-width:18cm;margin:1.2cm auto;padding:0 1em}"
                    + "table{border-collapse:collapse;width:100%}td,th{border:1px solid;padding:.2em .4em;text-align:left;"
                    + "vertical-align:top}tr{break-inside:avoid}</style>\n</head><body>\n<h1>"
            )
            .Append(Day(plan.From))
            .Append(" to ")
            .Append(Day(plan.Until))
            .Append(
                "</h1>\n<p>Wash your hands, no soap left on them. Look: bubbles run, water clear or green, nobody at the "
                    + "surface. Write the temperature and tick what you did.</p>\n"
            );
        for (var day = 0; day < plan.Days; day++)
        {
            page.Append("<h2>").Append(Day(plan.From.PlusDays(day))).Append("</h2>\n<table>\n");
            page.Append("<tr><th>vessel</th><th>to do</th><th>°C</th><th>time</th><th>done</th></tr>\n");
            foreach (var one in plan.Vessels)
            {
                page.Append("<tr><td>")
                    .Append(Plain(naming.NameOf(Subject.Of(one.Vessel))))
                    .Append("</td><td>")
                    .AppendJoin("<br>", Deeds(one, outlook).Select(Plain))
                    .Append("</td><td></td><td></td><td>☐</td></tr>\n");
            }

            page.Append("</table>\n");
        }

        List(
            page,
            "To be done on these days, as the keeper showed you",
            plan.Cannot.Select(action => $"{words.Words(action)}, {words.When(action)}")
        );
        List(page, "What normal looks like", Normal);
        page.Append(
            "<p><b>Not normal: no bubbles, milky water, a smell, animals at the surface or on their sides. Then call.</b></p>\n"
        );
        List(page, "What not to do", Not);
        page.Append(
            "<p><b>If the mains go: no food, lids off, a net or a cloth over vessels with animals that climb; every half "
                + "hour, until you are told otherwise, scoop a cup from each vessel and pour it back twenty times; and call."
                + "</b></p>\n"
        );
        if (!plan.Hatches.IsEmpty)
        {
            page.Append(
                "<p><b>Larvae may come where the mother is, in her box or in the tank: light a torch there in the evening. "
                    + "If you see them, call at once.</b></p>\n"
            );
        }

        List(
            page,
            "Whom to call",
            ["Keeper: ", "Somebody who knows the animals: ", "Veterinarian: ", "Electrician: "]
        );
        List(page, "Mind", BadDayVerb.Cautions(plan.Cautions));
        return page.Append("</body></html>\n").ToString();
    }

    private static IEnumerable<string> Deeds(AwayVessel one, Outlook outlook)
    {
        if (one.TopUpMillilitresPerDay > 0)
        {
            yield return $"Pour the bottle: {Saying.Number(one.TopUpMillilitresPerDay)} mL of fresh water";
        }

        foreach (var portion in one.Portions)
        {
            var name = portion.Name ?? EnumWords.Of(portion.Food);
            yield return portion.DryMilligrams is { } milligrams
                ? $"Give one small box: {name}, {Saying.Number(milligrams)} mg dry"
                : $"Green water, {name}, {Saying.Number(portion.Millilitres ?? 0)} mL: take as much water out first, then pour it in";
        }

        if (one.FoodNotKnown)
        {
            yield return "Give the small box put ready for this day, if there is one";
        }

        if (outlook.House.Vessel(one.Vessel).Role is VesselRole.EggVessel)
        {
            yield return "Take white eggs out, morning and evening";
        }

        yield return "Look";
    }

    private static void List(StringBuilder page, string heading, IEnumerable<string> lines)
    {
        var told = lines.ToList();
        if (told.Count == 0)
        {
            return;
        }

        page.Append("<h2>").Append(Plain(heading)).Append("</h2>\n<ul>\n");
        foreach (var line in told)
        {
            page.Append("<li>").Append(Plain(line)).Append("</li>\n");
        }

        page.Append("</ul>\n");
    }

    private static string Day(NodaTime.LocalDate day) => LocalDatePattern.Iso.Format(day);

    private static string Plain(string text) => WebUtility.HtmlEncode(text);
}
