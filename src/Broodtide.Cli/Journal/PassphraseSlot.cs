using Broodtide.Cli.Door;
using Broodtide.Storage;
using Broodtide.Units;

namespace Broodtide.Cli.Journal;

/// <summary>Where the passphrase of a backup comes from: never from the call itself, which other programs can read.</summary>
internal static class PassphraseSlot
{
    private const string Variable = "BROODTIDE_BACKUP_PASSPHRASE";

    public static Slot Make() =>
        Slot.Option(
            "--passphrase-file",
            $"A file whose first line is the passphrase; without it the variable {Variable}, if it is set.",
            "FILE"
        );

    /// <exception cref="StoreUnusableException">The file holds none.</exception>
    public static string? Read(Sitting sitting, Slot slot)
    {
        if (slot.Text(sitting.Parse) is not { } file)
        {
            return sitting.Surroundings.Variable(Variable) is { Length: > 0 } said ? said : null;
        }

        if (!File.Exists(file))
        {
            throw new StoreUnusableException(new Remark("file-not-there", new Argument("file", file)));
        }

        using var reader = new StreamReader(file);
        return reader.ReadLine() is { Length: > 0 } line
            ? line
            : throw new StoreUnusableException(new Remark("backup-passphrase-empty"));
    }
}
