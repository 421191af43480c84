using Broodtide.Cli.Door;
using Broodtide.Cli.Words;
using Broodtide.Domain.Journal;
using Broodtide.Units;
using Broodtide.Workbench.BadDays;

namespace Broodtide.Cli.BadDays;

/// <summary>A sign, and what it is reported for.</summary>
internal sealed record SignJson(string Sign, string Words, string MayBe, string Footing, string Source);

/// <summary>A vessel that shared water or animals.</summary>
internal sealed record SharedJson(string Vessel, string Last);

/// <summary>A suspected disease.</summary>
internal sealed record SickAnswer(
    string Now,
    string? Vessel,
    IReadOnlyList<RemarkJson> First,
    IReadOnlyList<string> Cautions,
    IReadOnlyList<SignJson> Signs,
    IReadOnlyList<SharedJson> Shared,
    IReadOnlyList<RemarkJson> Assumes
);

/// <summary>Tells what to do when animals look sick.</summary>
internal static class SickVerb
{
    public static VerbCommand Make()
    {
        var vessel = Slot.MaybeWord("VESSEL", "Where; all the house if left out.");
        var seen = Slot.Options(
            "--sign",
            "What is seen: " + string.Join(", ", Sickness.Signs.Select(sign => sign.Code)) + ".",
            "SIGN"
        );
        return new(
            "sick",
            "Animals look sick: what to do first, signs with their sources, and which vessels shared the water.",
            ["badday sick \"Jar A\"", "badday sick \"River tank\" --sign milky-tail --json"],
            [vessel, seen],
            async sitting =>
            {
                var outlook = await sitting.LookAsync();
                var saying = await sitting.SayingAsync();
                var said = new Said(sitting, outlook.House);
                var id = said.Vessel(vessel);
                var signs = said.Texts(seen);
                foreach (var unknown in signs.Where(sign => !Sickness.Signs.Any(one => one.Code == sign)))
                {
                    said.Add(new Remark("sick-sign-unknown", new Argument("typed", unknown)));
                }

                if (said.Wrong.Count > 0)
                {
                    return sitting.NotUnderstood(said.Wrong, saying);
                }

                var told = Sickness.Of(outlook, id, signs);
                var answer = new SickAnswer(
                    Saying.Iso(told.Now),
                    id is { } known ? said.Naming.NameOf(Subject.Of(known)) : null,
                    BadDayVerb.Json(told.First, saying),
                    BadDayVerb.Cautions(told.Cautions),
                    [
                        .. told.Signs.Select(sign => new SignJson(
                            sign.Code,
                            Sentences.Find("sick-sign." + sign.Code) ?? sign.Code,
                            Sentences.Find(sign.MayBe) ?? sign.MayBe,
                            EnumWords.Of(sign.Footing),
                            sign.Source
                        )),
                    ],
                    [
                        .. told.Shared.Select(one => new SharedJson(
                            said.Naming.NameOf(Subject.Of(one.Vessel)),
                            Saying.Iso(one.Last)
                        )),
                    ],
                    BadDayVerb.Json(told.Assumed, saying)
                );
                return sitting.Answer(
                    answer,
                    CliJson.Default.SickAnswer,
                    page => Print(page, answer, told, saying)
                );
            }
        );
    }

    private static void Print(Page page, SickAnswer answer, SickDay told, Saying saying)
    {
        BadDayVerb.PrintFirst(page, answer.First, answer.Cautions);
        page.Heading("Signs, and what they are reported for");
        foreach (var sign in answer.Signs)
        {
            page.Line($"{sign.Words} {sign.MayBe} ({sign.Source}; {sign.Footing})");
        }

        if (answer.Shared.Count > 0)
        {
            page.Line().Heading("Shared water or animals within a month");
            foreach (var (shared, when) in answer.Shared.Zip(told.Shared))
            {
                page.Line($"  {shared.Vessel}, last {saying.Time(when.Last)}");
            }
        }

        BadDayVerb.PrintAssumed(page, answer.Assumes);
    }
}
