using System.CommandLine;

namespace Broodtide.Cli.Settling;

/// <summary>Settlement, the way home, nurseries, and juveniles given away.</summary>
internal static class ReturnVerb
{
    public static Command Make()
    {
        var home = new Command(
            "return",
            "Settlement, the way back to fresh water, juveniles, their care card, and what is heard of them."
        );
        home.Subcommands.Add(WatchVerb.Make());
        home.Subcommands.Add(ReturnPlanVerb.Make());
        home.Subcommands.Add(NurseryVerb.Make());
        home.Subcommands.Add(CardVerb.Make());
        home.Subcommands.Add(SurvivalVerbs.Answer());
        home.Subcommands.Add(SurvivalVerbs.Hear());
        return home;
    }
}
