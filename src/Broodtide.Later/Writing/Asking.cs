using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Workbench.Recording;
using NodaTime;

namespace Broodtide.Phone.Writing;

/// <summary>A fact on its way into the journal: what is improbable about it is asked back, each thing once.</summary>
internal sealed class Asking(Fact fact, Happened happened)
{
    private readonly HashSet<(string, string?)> _answered = [];

    public Fact Fact { get; private set; } = fact;

    public Happened Happened { get; private set; } = happened;

    /// <summary>What is still to be asked; none when it can be written.</summary>
    public Question? Next(House house, Instant now) =>
        AskBack
            .For(Fact, Happened, house, now)
            .FirstOrDefault(question => !_answered.Contains(Key(question)));

    /// <summary>The keeper stands by it.</summary>
    public void AsTyped(Question question)
    {
        Fact = AskBack.AsTyped(Fact, [question]);
        _answered.Add(Key(question));
    }

    /// <summary>It was the likelier thing.</summary>
    public void AsLikelier(Question question)
    {
        Fact = question.Likelier ?? Fact;
        Happened = question.LikelierWhen ?? Happened;
        _answered.Add(Key(question));
    }

    private static (string, string?) Key(Question question) => (question.Remark.Code, question.Field);
}
