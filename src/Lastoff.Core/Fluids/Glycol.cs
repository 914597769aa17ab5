namespace Lastoff.Core.Fluids;

/// <summary>What keeps a coolant from freezing.</summary>
public enum Glycol
{
    /// <summary>The usual one, poisonous.</summary>
    Ethylene,

    /// <summary>The less poisonous one.</summary>
    Propylene,
}
