namespace Broodtide.Workbench.People;

/// <summary>
/// A name that a person signs with: spaces made plain, and a key under which two spellings of it are the same. Letters
/// that Unicode can write in two ways are not made one.
/// </summary>
public static class PersonName
{
    /// <summary>The longest name, in characters.</summary>
    public const int Longest = 60;

    /// <summary>The name without spaces around it and with single ones inside; none if nothing can be read.</summary>
    public static string? Read(string? typed)
    {
        if (typed is null || typed.Any(char.IsControl))
        {
            return null;
        }

        var plain = string.Join(
            ' ',
            typed.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries)
        );
        return plain.Length is > 0 and <= Longest ? plain : null;
    }

    /// <summary>What two spellings of a name have in common.</summary>
    public static string KeyOf(string name) => (Read(name) ?? name).ToUpperInvariant();
}
