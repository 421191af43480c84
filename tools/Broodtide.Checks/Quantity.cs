namespace Broodtide.Checks;

/// <summary>A quantity the library computes, by the name and keys of the check files.</summary>
public sealed class Quantity
{
    private readonly string[] _required;
    private readonly string[] _optional;
    private readonly Func<CheckInputs, CheckSurroundings, IReadOnlyList<double>> _compute;

    private Quantity(
        string name,
        string keys,
        Func<CheckInputs, CheckSurroundings, IReadOnlyList<double>> compute
    )
    {
        Name = name;
        var all = keys.Split(", ");
        _optional = [.. all.Where(key => key.StartsWith('(')).Select(key => key.Trim('(', ')'))];
        _required = [.. all.Where(key => !key.StartsWith('('))];
        _compute = compute;
    }

    /// <summary>Its name, groups separated by dots.</summary>
    public string Name { get; }

    /// <summary>The group: the name up to the first dot.</summary>
    public string Group => Name.Split('.')[0];

    /// <summary>A quantity that is one number.</summary>
    /// <param name="name">Its name.</param>
    /// <param name="keys">Its keys, separated by a comma and a space; a key in brackets may be absent.</param>
    /// <param name="compute">Calls the public door of the library.</param>
    public static Quantity Of(string name, string keys, Func<CheckInputs, double> compute) =>
        new(name, keys, (inputs, _) => [compute(inputs)]);

    /// <summary>A quantity that is a list of numbers.</summary>
    public static Quantity ListOf(
        string name,
        string keys,
        Func<CheckInputs, IReadOnlyList<double>> compute
    ) => new(name, keys, (inputs, _) => compute(inputs));

    /// <summary>A quantity that reads a data file.</summary>
    public static Quantity WithData(
        string name,
        string keys,
        Func<CheckInputs, CheckSurroundings, IReadOnlyList<double>> compute
    ) => new(name, keys, compute);

    /// <summary>Computes it.</summary>
    /// <exception cref="CheckFormatException">A key is missing, unknown or of the wrong kind.</exception>
    /// <exception cref="ArgumentException">The library refuses the inputs.</exception>
    public IReadOnlyList<double> Compute(CheckInputs inputs, CheckSurroundings surroundings)
    {
        var missing = _required.Where(key => !inputs.Has(key)).ToArray();
        var unknown = inputs
            .Keys.Except(_required, StringComparer.Ordinal)
            .Except(_optional, StringComparer.Ordinal)
            .ToArray();
        return missing.Length == 0 && unknown.Length == 0
            ? _compute(inputs, surroundings)
            : throw new CheckFormatException(
                $"{(missing.Length > 0 ? $"the key {string.Join(", ", missing)} is missing" : $"{string.Join(", ", unknown)} is no key of {Name}")}; "
                    + $"its keys are {string.Join(", ", _required.Concat(_optional.Select(key => $"({key})")))}"
            );
    }
}
