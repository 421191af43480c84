namespace Broodtide.Phone.Parts;

/// <summary>A page that is there for writing: who only reads is told so in its place, before anything is typed.</summary>
[AttributeUsage(AttributeTargets.Class)]
internal sealed class WritesAttribute : Attribute;
