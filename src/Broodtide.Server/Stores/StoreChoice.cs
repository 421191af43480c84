using System.CommandLine;
using Broodtide.Server.Words;
using Broodtide.Storage;
using Broodtide.Units;
using Npgsql;
using Argument = Broodtide.Units.Argument;

namespace Broodtide.Server.Stores;

/// <summary>Where the house lies: in files of the data folder, or in a PostgreSQL database.</summary>
internal sealed class StoreChoice
{
    /// <summary>
    /// Names the database too, and may hold a password, which a command line must not: everybody on the machine sees it.
    /// </summary>
    public const string Variable = "BROODTIDE_STORE";

    // What a database may answer, each with a sentence of its own.
    private static readonly HashSet<string> OfDatabase =
    [
        "store-text-wrong",
        "store-not-durable",
        "store-not-prepared",
        "store-away",
        "store-cannot-be-opened",
        "store-schema-name",
        "store-not-empty",
        "store-move-differs",
        "store-damaged",
        "house-none",
    ];

    private readonly Option<string> _store = new("--store")
    {
        Description =
            "The PostgreSQL database that the house lies in, such as \"Host=/run/postgresql;Database=broodtide\", instead of "
            + $"files in the data folder. {Variable} in the environment says the same, and may hold a password.",
        HelpName = "database",
        Recursive = true,
    };

    /// <summary>The option itself, for those that do not go with it.</summary>
    public Option Option => _store;

    /// <summary>Adds the option to a command and to those below it.</summary>
    public void AddTo(Command command, Option<bool> demo)
    {
        command.Add(_store);
        _store.Validators.Add(result =>
        {
            if (Trouble(result.GetValue(_store)) is { } trouble)
            {
                result.AddError(Said.Sentence(trouble));
            }
        });
        command.Validators.Add(result =>
        {
            if (result.GetResult(_store) is not null && result.GetValue(demo))
            {
                result.AddError(
                    Said.Sentence(
                        "options-apart",
                        new("option", _store.Name),
                        new Argument("other", demo.Name)
                    )
                );
            }
        });
    }

    /// <summary>The database; none where the house lies in files, and for a demo.</summary>
    public string? Read(ParseResult parsed) =>
        parsed.GetValue(_store) is { Length: > 0 } typed ? typed
        : Environment.GetEnvironmentVariable(Variable) is { Length: > 0 } set ? set
        : null;

    /// <summary>Why a store cannot be used, in words.</summary>
    public static string Sentence(StoreUnusableException unusable) =>
        OfDatabase.Contains(unusable.Reason.Code)
            ? Said.Sentence(unusable.Reason)
            : Said.Sentence(
                "store-trouble",
                new("code", unusable.Reason.Code),
                new Argument("file", unusable.Reason["file"] ?? "")
            );

    private static Remark? Trouble(string? typed)
    {
        if (typed is null)
        {
            return null;
        }

        try
        {
            var read = new NpgsqlConnectionStringBuilder(typed);
            return read.Password is null && read.SslPassword is null
                ? null
                : new Remark("store-secret-typed", new Argument("variable", Variable));
        }
        catch (Exception wrong) when (wrong is ArgumentException or FormatException or KeyNotFoundException)
        {
            return new Remark("store-text-wrong");
        }
    }
}
