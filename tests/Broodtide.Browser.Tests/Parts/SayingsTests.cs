using System.Text.RegularExpressions;
using Broodtide.Phone.Browser;
using Broodtide.Phone.Language;
using Broodtide.Workbench.Planning;

namespace Broodtide.Browser.Tests.Parts;

public sealed partial class SayingsTests
{
    private static readonly Words English = Words.English();
    private static readonly PhoneClock Clock = new();
    private static readonly Formats Formats = new(new Preferences(), English, Clock);
    private static readonly Naming Naming = new(English);
    private static readonly Sayings Sayings = new(English, Formats, Naming, new PhoneZone(Clock));
    private static readonly ActionWords Actions = new(English, Sayings, Naming);

    [Fact]
    public void Every_action_has_words_for_the_deed_and_for_the_deed_done() =>
        Assert.All(
            ActionCodes.All,
            code => Assert.True(English.Has($"do.{code}") && English.Has($"done.{code}"), code)
        );

    [Fact]
    public void Every_code_that_plans_and_forecasts_say_has_words() =>
        Assert.All(PlanRemarks.All, code => Assert.True(English.Has($"say.{code}"), code));

    [Fact]
    public void Every_caution_and_every_door_has_words()
    {
        Assert.All(Enum.GetNames<CautionCode>(), code => Assert.True(English.Has($"care.{code}"), code));
        Assert.All(
            Enum.GetNames<DoorCode>().Except([nameof(DoorCode.MarkDone)]),
            code => Assert.True(English.Has($"go.{code}"), code)
        );
    }

    [Theory]
    [InlineData(0)]
    [InlineData(6)]
    [InlineData(14)]
    [InlineData(27)]
    [InlineData(28)]
    [InlineData(31)]
    [InlineData(45)]
    [InlineData(56)]
    public async Task Whatever_the_invented_house_is_told_to_do_is_told_in_whole_sentences(int daysAgo)
    {
        var outlook = await DemoOutlook.Of(daysAgo);
        var said = new List<string>();
        foreach (
            var action in outlook
                .Plans.SelectMany(plan => plan.Actions)
                .Concat(outlook.Due.Items.Select(item => item.Action))
        )
        {
            said.Add(Actions.Deed(action, outlook.House));
            said.Add(Actions.Done(action, outlook.House));
            said.Add(Sayings.Plain(Actions.Why(action, outlook.House, outlook.Now)));
            said.AddRange(Actions.Amounts(action, outlook.House).Select(Sayings.Plain));
            if (Actions.Slip(action, outlook.House) is { } slip)
            {
                said.Add(Sayings.Plain(slip));
            }
        }

        Assert.NotEmpty(said);
        // A code stands for itself where it has no words; a place without a value shows a question mark of its own.
        Assert.All(
            said,
            text => Assert.False(text.Contains('{') || Code().IsMatch(text) || Unfilled().IsMatch(text), text)
        );
    }

    [Fact]
    public void A_name_in_a_text_is_filled_by_the_argument_of_that_name() =>
        Assert.Equal(
            "Read last yesterday.",
            Sayings.Plain(
                English.Named("say.plan-salinity-daily", name => name == "last" ? "yesterday" : "?")
            )
        );

    [GeneratedRegex(@"^(do|done|say)\.[\w.-]+$", RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex Code();

    [GeneratedRegex(@"(^|[ (])\?($|[ .,)])", RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex Unfilled();
}
