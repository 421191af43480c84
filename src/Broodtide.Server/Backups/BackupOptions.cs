using System.CommandLine;
using System.CommandLine.Parsing;
using Broodtide.Server.Words;
using Broodtide.Units;
using NodaTime;
using Argument = Broodtide.Units.Argument;

namespace Broodtide.Server.Backups;

/// <summary>The words by which the server is told to back itself up.</summary>
internal sealed class BackupOptions
{
    /// <summary>May hold the passphrase, which a command line must not: everybody on the machine sees it.</summary>
    public const string Variable = "BROODTIDE_BACKUP_PASSPHRASE";

    private const int MostHours = 31 * 24;
    private const int MostKept = 1000;

    private readonly Option<DirectoryInfo> _to = new("--backup-to")
    {
        Description =
            $"Backs the data folder up into this folder by a clock. Encrypted if {Variable} is set in the environment.",
        HelpName = "folder",
    };

    private readonly Option<int> _every = new("--backup-every")
    {
        Description = "With --backup-to: hours from one backup to the next.",
        HelpName = "hours",
        DefaultValueFactory = _ => 24,
    };

    private readonly Option<int> _keep = new("--backup-keep")
    {
        Description =
            "With --backup-to: how many backups stay; older ones are removed once a new one is proved.",
        HelpName = "number",
        DefaultValueFactory = _ => 7,
    };

    /// <summary>Adds them to a command; what does not go together is said before anything is started.</summary>
    public void AddTo(Command command, params IReadOnlyList<Option> apart)
    {
        foreach (var option in (Option[])[_to, _every, _keep])
        {
            command.Add(option);
        }

        command.Validators.Add(result =>
        {
            Remark? trouble = null;
            if (result.GetResult(_to) is not null)
            {
                trouble =
                    Outside(result, _every, MostHours) is { } hours
                        ? new("backup-every", new("typed", hours), new("most", MostHours))
                    : Outside(result, _keep, MostKept) is { } number
                        ? new("backup-keep", new("typed", number), new("most", MostKept))
                    : apart.FirstOrDefault(other => IsSaid(result, other)) is { } other
                        ? new("options-apart", new("option", _to.Name), new("other", other.Name))
                    : null;
            }
            else if (((Option[])[_every, _keep]).FirstOrDefault(one => IsSaid(result, one)) is { } alone)
            {
                trouble = new(
                    "option-needs",
                    new Argument("option", alone.Name),
                    new Argument("other", _to.Name)
                );
            }

            if (trouble is not null)
            {
                result.AddError(Said.Sentence(trouble));
            }
        });
    }

    /// <summary>The plan; none where nobody asked for backups. Only after parsing found no error.</summary>
    public BackupPlan? Read(ParseResult parsed) =>
        parsed.GetValue(_to) is { } folder
            ? new(
                folder,
                Duration.FromHours(parsed.GetValue(_every)),
                parsed.GetValue(_keep),
                Environment.GetEnvironmentVariable(Variable) is { Length: > 0 } passphrase ? passphrase : null
            )
            : null;

    private static bool IsSaid(CommandResult result, Option option) =>
        result.GetResult(option) is { Implicit: false };

    // What was said, where it is not from 1 to the most.
    private static int? Outside(CommandResult result, Option<int> option, int most) =>
        IsSaid(result, option) && result.GetValue(option) is var said && (said < 1 || said > most)
            ? said
            : null;
}
