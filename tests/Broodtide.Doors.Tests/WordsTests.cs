using System.Text.RegularExpressions;
using Broodtide.Cli.Words;
using Broodtide.Domain.Journal;
using Broodtide.Workbench.Crossing;
using Broodtide.Workbench.Due;
using Broodtide.Workbench.Mixing;
using Broodtide.Workbench.Planning;
using Broodtide.Workbench.Population;
using Broodtide.Workbench.Recording;
using Broodtide.Workbench.Species;
using Broodtide.Workbench.TideLine;
using Broodtide.Workbench.WhatIf;

namespace Broodtide.Doors.Tests;

public sealed partial class WordsTests
{
    /// <summary>Where the sources lie: found from the folder the tests were built in.</summary>
    private static string Sources()
    {
        for (var at = new DirectoryInfo(AppContext.BaseDirectory); at is not null; at = at.Parent)
        {
            if (File.Exists(Path.Combine(at.FullName, "Broodtide.slnx")))
            {
                return Path.Combine(at.FullName, "src");
            }
        }

        throw new DirectoryNotFoundException("The sources are not beside the tests.");
    }

    // Codes written in the core: the first text of a remark, of a parse that failed, or of what makes one of them.
    private static IEnumerable<(string Code, string File, string Text)> CodesOfTheCore()
    {
        foreach (
            var project in new[]
            {
                "Broodtide.Units",
                "Broodtide.Science",
                "Broodtide.Domain",
                "Broodtide.Workbench",
                "Broodtide.Storage",
                "Broodtide.Photos",
                "Broodtide.Cli",
            }
        )
        {
            foreach (
                var file in Directory.EnumerateFiles(
                    Path.Combine(Sources(), project),
                    "*.cs",
                    SearchOption.AllDirectories
                )
            )
            {
                var text = File.ReadAllText(file);
                foreach (Match match in Spoken().Matches(text))
                {
                    yield return (match.Groups[1].Value, file, text);
                }

                // "condition ? "one-code" : "another-code"" as the code of a remark.
                foreach (Match match in Chosen().Matches(text))
                {
                    yield return (match.Groups[1].Value, file, text);
                    yield return (match.Groups[2].Value, file, text);
                }
            }
        }
    }

    [Fact]
    public void Every_code_of_the_core_has_a_sentence()
    {
        var codes = CodesOfTheCore().Select(found => found.Code).Distinct(StringComparer.Ordinal).ToList();
        Assert.True(codes.Count > 150, $"{codes.Count} codes found");
        Assert.Empty(codes.Where(code => Sentences.Find(code) is null).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void A_sentence_speaks_of_nothing_that_its_code_is_not_given()
    {
        var strangers = new List<string>();
        foreach (var found in CodesOfTheCore().ToLookup(found => found.Code, StringComparer.Ordinal))
        {
            foreach (Match place in Place().Matches(Sentences.Find(found.Key) ?? ""))
            {
                var name = $"\"{place.Groups[1].Value}\"";
                // The arguments may stand in a helper beside it, so the whole file counts.
                if (
                    !found.Any(at =>
                        at.Text.Contains(name, StringComparison.Ordinal) || Helper(at.Text, name)
                    )
                )
                {
                    strangers.Add($"{found.Key}: {name}");
                }
            }
        }

        Assert.Empty(strangers);
    }

    // Questions share one maker of arguments.
    private static bool Helper(string text, string name) =>
        text.Contains("NumberDoubts.Ask", StringComparison.Ordinal)
        && name is "\"field\"" or "\"typed\"" or "\"value\"" or "\"unit\"";

    public static TheoryData<Type> ClosedLists() =>
        [
            typeof(MixingRefusalCode),
            typeof(CrossingRefusalCode),
            typeof(CrossingRemedyCode),
            typeof(CrossingField),
            typeof(CrossingNoteCode),
            typeof(BenchAct),
            typeof(SalinityScale),
            typeof(CorrectionMeans),
            typeof(ReadingCorrectionCode),
            typeof(ReadingDoubt),
            typeof(ReadingObstacle),
            typeof(DoubtSource),
            typeof(DuePart),
            typeof(CautionCode),
            typeof(Workbench.Hatching.EggWorth),
            typeof(Science.Development.IsolationCode),
            typeof(Workbench.Adults.ClutchEnd),
            typeof(Workbench.Hatching.TonightDeed),
            typeof(Workbench.Losses.LossVerdict),
            typeof(Science.Comparing.ArmBasis),
            typeof(Workbench.Review.RuleOutcome),
            typeof(Workbench.Review.ChapterCode),
            typeof(Workbench.Review.LossPhase),
            typeof(Workbench.Review.LossKnown),
            typeof(Workbench.Review.LossCause),
            typeof(Workbench.Review.CauseVerdict),
            typeof(Workbench.Review.AdviceBasis),
            typeof(Workbench.Review.ForecastSubject),
            typeof(LimitedQuantity),
            typeof(TideWordCode),
            typeof(TideMarkKind),
            typeof(Science.Estimation.Larvae.HelpfulKind),
            typeof(HelpfulQuestion),
            typeof(WhatIfQuantity),
            typeof(WhatIfVerdict),
        ];

    [Theory]
    [MemberData(nameof(ClosedLists))]
    public void Every_member_of_a_closed_list_has_a_sentence(Type list)
    {
        var name = System.Text.Json.JsonNamingPolicy.KebabCaseLower.ConvertName(list.Name);
        foreach (var member in Enum.GetNames(list))
        {
            var key = $"{name}.{System.Text.Json.JsonNamingPolicy.KebabCaseLower.ConvertName(member)}";
            Assert.True(Sentences.Find(key) is not null, key);
            if (list == typeof(MixingRefusalCode))
            {
                Assert.True(Sentences.Find($"{key}-nearest") is not null, $"{key}-nearest");
            }
        }
    }

    [Fact]
    public void Every_action_has_words()
    {
        foreach (var code in ActionCodes.All)
        {
            Assert.True(Sentences.Find($"action.{code}") is not null, code);
        }
    }

    [Fact]
    public void Every_code_that_is_kept_as_a_constant_has_a_sentence()
    {
        foreach (var field in typeof(ProfileConflictCodes).GetFields().Where(f => f.IsLiteral))
        {
            var code = (string)field.GetRawConstantValue()!;
            Assert.True(Sentences.Find(code) is not null, code);
        }
    }

    [Fact]
    public void Every_unit_is_shown_in_words_that_can_be_typed_back()
    {
        foreach (var unit in UnitCode.All.Where(unit => unit.Code != "1"))
        {
            var read = AmountText.Parse($"2 {UnitNames.Of(unit.Code)}", "amount", unit.Dimension);
            Assert.True(read.Succeeded, $"{unit.Code}: {read.Reason}");
            Assert.Equal(unit.Code, read.Value.Unit);
        }
    }

    [GeneratedRegex(
        @"(?:new\s+Remark|new\s+StoreUnusableException|\.No|\bFault|Numbered|\bAsk|\bNote|\bOf|Unusable|Remark)\(\s*(?:fact,\s*name,\s*number,\s*)?(?:path,\s*)?""([a-z][a-z0-9]*(?:-[a-z0-9]+)+)"""
    )]
    private static partial Regex Spoken();

    [GeneratedRegex(@"\?\s*""([a-z][a-z0-9]*(?:-[a-z0-9]+)+)""\s*:\s*""([a-z][a-z0-9]*(?:-[a-z0-9]+)+)""")]
    private static partial Regex Chosen();

    [GeneratedRegex(@"\{(\w+)\}")]
    private static partial Regex Place();
}
