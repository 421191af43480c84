namespace Broodtide.Fuzzing;

/// <summary>
/// Every reader that meets a stranger, by name. Whatever the bytes, a reader answers with the thing or with a reason: an
/// exception is a fault.
/// </summary>
public static class Readers
{
    private static readonly Dictionary<string, Action<byte[]>> ByName = new(StringComparer.Ordinal)
    {
        ["entry"] = EntryReader.Read,
        ["dossier"] = DossierReader.Read,
        ["table"] = TableReader.Read,
        ["photo"] = PhotoReader.Read,
        ["sensor"] = SensorReader.Read,
        ["sync"] = SyncReader.Read,
    };

    // Here and not beside the faults: that class is instrumented, and may run under the fuzzer alone.
    private static readonly Dictionary<string, Action<byte[]>> Faulty = new(StringComparer.Ordinal)
    {
        ["planted-1"] = Planted.LengthBelieved,
        ["planted-2"] = Planted.DeepWithoutEnd,
        ["planted-3"] = Planted.NumberTooLong,
        ["planted-4"] = Planted.ScaleOfZero,
        ["planted-5"] = Planted.NameTwice,
    };

    /// <summary>Their names.</summary>
    public static IReadOnlyCollection<string> Names => ByName.Keys;

    /// <summary>One of them, or one with a planted fault (<c>planted-1</c> to <c>planted-5</c>).</summary>
    /// <exception cref="ArgumentException">There is no such reader.</exception>
    public static Action<byte[]> Find(string name) =>
        ByName.TryGetValue(name, out var read) ? read
        : Faulty.TryGetValue(name, out var planted) ? planted
        : throw new ArgumentException(
            $"There is no reader {name}: allowed are {string.Join(", ", ByName.Keys.Concat(Faulty.Keys))}.",
            nameof(name)
        );

    /// <summary>The rest after a first byte that chooses one of several; 0 and nothing where there is none.</summary>
    internal static (int Choice, byte[] After) Choose(byte[] bytes, int of) =>
        bytes.Length == 0 ? (0, bytes) : (bytes[0] % of, bytes[1..]);
}
