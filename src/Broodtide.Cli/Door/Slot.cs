using System.CommandLine;

namespace Broodtide.Cli.Door;

/// <summary>A place in a command that a person fills with text.</summary>
internal sealed class Slot
{
    private readonly Func<ParseResult, IReadOnlyList<string>> _read;

    private Slot(Symbol symbol, Func<ParseResult, IReadOnlyList<string>> read)
    {
        Symbol = symbol;
        _read = read;
    }

    public Symbol Symbol { get; }

    /// <summary>What a reason calls it.</summary>
    public string Name => Symbol.Name.TrimStart('-').ToLowerInvariant();

    public string? Text(ParseResult parse) => _read(parse) is [var first, ..] ? first : null;

    public IReadOnlyList<string> Texts(ParseResult parse) => _read(parse);

    /// <summary>A word that must be there.</summary>
    public static Slot Word(string name, string help) => One(name, help, ArgumentArity.ExactlyOne);

    /// <summary>A word that may be there.</summary>
    public static Slot MaybeWord(string name, string help) => One(name, help, ArgumentArity.ZeroOrOne);

    /// <summary>Words, one at least.</summary>
    public static Slot ManyWords(string name, string help)
    {
        var argument = new Argument<string[]>(name) { Description = help, Arity = ArgumentArity.OneOrMore };
        return new(argument, parse => parse.GetValue(argument) ?? []);
    }

    /// <summary>An option with a text.</summary>
    public static Slot Option(string name, string help, string? filledWith = null)
    {
        var option = new Option<string?>(name) { Description = help, HelpName = filledWith };
        return new(option, parse => parse.GetValue(option) is { } text ? [text] : []);
    }

    /// <summary>An option that may be given several times.</summary>
    public static Slot Options(string name, string help, string? filledWith = null)
    {
        var option = new Option<string[]>(name)
        {
            Description = help,
            HelpName = filledWith,
            Arity = ArgumentArity.OneOrMore,
        };
        return new(option, parse => parse.GetValue(option) ?? []);
    }

    /// <summary>An option that is there or not.</summary>
    public static Slot Flag(string name, string help)
    {
        var option = new Option<bool>(name) { Description = help };
        return new(option, parse => parse.GetValue(option) ? ["yes"] : []);
    }

    public void AddTo(Command command)
    {
        if (Symbol is Option option)
        {
            command.Options.Add(option);
        }
        else
        {
            command.Arguments.Add((System.CommandLine.Argument)Symbol);
        }
    }

    private static Slot One(string name, string help, ArgumentArity arity)
    {
        var argument = new Argument<string?>(name) { Description = help, Arity = arity };
        return new(argument, parse => parse.GetValue(argument) is { } text ? [text] : []);
    }
}
