using System.CommandLine;

namespace Broodtide.Cli.Door;

/// <summary>The options every verb understands.</summary>
internal sealed class GlobalOptions
{
    public Option<string?> Journal { get; } =
        Everywhere<string?>(
            "--journal",
            "The journal's file. Else BROODTIDE_JOURNAL, else journal.broodtide in the user's data folder.",
            "FILE"
        );

    public Option<string?> At { get; } =
        Everywhere<string?>("--at", "The instant that counts as now.", "TIME");

    public Option<string?> AsKnownAt { get; } =
        Everywhere<string?>("--as-known-at", "Pass over every entry written later than this.", "TIME");

    public Option<string?> Zone { get; } =
        Everywhere<string?>(
            "--zone",
            "The keeper's time zone, such as Europe/Berlin. Else BROODTIDE_ZONE, else this machine's.",
            "NAME"
        );

    public Option<string?> Who { get; } =
        Everywhere<string?>(
            "--who",
            "Who writes. Else BROODTIDE_KEEPER, else the name at this machine.",
            "NAME"
        );

    public Option<bool> Json { get; } =
        Everywhere<bool>("--json", "Print the result as JSON, with units in the names.", null);

    public void AddTo(Command root)
    {
        root.Options.Add(Journal);
        root.Options.Add(At);
        root.Options.Add(AsKnownAt);
        root.Options.Add(Zone);
        root.Options.Add(Who);
        root.Options.Add(Json);
    }

    private static Option<T> Everywhere<T>(string name, string help, string? filledWith) =>
        new(name)
        {
            Description = help,
            HelpName = filledWith,
            Recursive = true,
        };
}
